package config

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"underlay/drills/board"
)

// Read reads a configuration. file is its name for the findings. All faults
// are found, not the first alone; a configuration with a fault is not to be
// used.
func Read(file string, src []byte) (Config, board.Findings) {
	c := Default()
	c.file = file
	var top map[string]any
	if _, err := toml.Decode(string(src), &top); err != nil {
		return c, board.Findings{syntax(file, src, err)}
	}
	c.lines = outline(string(src))
	r := reader{config: &c}
	for _, key := range inOrder(c.lines, top) {
		r.set(key, top[key])
	}
	return c, r.found
}

// inOrder returns the top-level keys in the order of the file.
func inOrder(d *document, top map[string]any) []string {
	var out []string
	add := func(path string) {
		key, _, _ := strings.Cut(path, ".")
		if _, ok := top[key]; ok && !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	for _, e := range d.entries {
		add(e.path())
	}
	for _, t := range d.tables {
		add(t.name)
	}
	return out
}

// syntax is the finding for a text that is not TOML. The column is counted from
// the offset: the parser's own leaves line ends out.
func syntax(file string, src []byte, err error) board.Finding {
	f := board.Finding{File: file, Level: board.Fault, Message: err.Error()}
	if p, ok := errors.AsType[toml.ParseError](err); ok {
		before := src[:min(max(p.Position.Start, 0), len(src))]
		f.Line, f.Message = p.Position.Line, p.Message
		f.Col = utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1
		if p.LastKey != "" && f.Message != "" {
			f.Entry = p.LastKey
		}
		f.Hint = "a line is a key, an equals sign and a value; texts stand in quotes"
	}
	return f
}

// reader checks one value after the other and keeps what is wrong.
type reader struct {
	config *Config
	found  board.Findings
}

func (r *reader) set(key string, v any) {
	c := r.config
	switch key {
	case "boards":
		r.boards(v)
	case "minutes":
		if n, ok := v.(int64); ok && n >= 1 && n <= 120 {
			c.Minutes = int(n)
			return
		}
		r.fault(key, -1, v, "a whole number of minutes from 1 to 120", "")
	case "mix":
		r.mix(v)
	case "from":
		c.From = r.texts(key, v)
	case "keeps":
		c.Keeps = r.texts(key, v)
	case "aim":
		r.choice(key, v, &c.Aim)
	case "wrong":
		r.choice(key, v, &c.Wrong)
	case "colours":
		r.choice(key, v, &c.Colours)
	default:
		r.unknown(key)
	}
}

func (r *reader) boards(v any) {
	names := r.texts("boards", v)
	switch {
	case names == nil:
	case len(names) == 0 || len(names) > 2:
		r.fault("boards", -1, v, "one board, or two: the one being learned and the other", "")
	case len(names) == 2 && names[0] == names[1]:
		r.fault("boards", 1, names[1], "another board than the first", "one board alone is fine")
	default:
		r.config.Boards = names
	}
}

// texts returns an array of texts, or nil after telling what is wrong with it.
func (r *reader) texts(key string, v any) []string {
	list, ok := v.([]any)
	if !ok {
		hint := ""
		if s, isText := v.(string); isText {
			hint = fmt.Sprintf("write [%q]", s)
		}
		r.fault(key, -1, v, "a list of texts", hint)
		return nil
	}
	out := make([]string, 0, len(list))
	for i, e := range list {
		s, ok := e.(string)
		if !ok || s == "" {
			r.fault(key, i, e, "a text that is not empty", "")
			return nil
		}
		out = append(out, s)
	}
	return out
}

func (r *reader) mix(v any) {
	tables, ok := v.(map[string]any)
	if !ok || len(tables) == 0 {
		r.fault("mix", -1, v, "tables with their weights", "such as mix = { go = 3, shell = 1 }")
		return
	}
	mix := map[string]float64{}
	for name, w := range tables {
		weight, ok := number(w)
		if !ok || !(weight > 0 && weight <= 1e6) {
			r.fault("mix."+name, -1, w, "a weight above 0", "leave out what is not to count")
			return
		}
		mix[name] = weight
	}
	r.config.Mix = mix
}

func number(v any) (float64, bool) {
	switch n := v.(type) {
	case int64:
		return float64(n), true
	case float64:
		return n, true
	}
	return 0, false
}

func (r *reader) choice(key string, v any, to *string) {
	words := Choices(key)
	if s, ok := v.(string); ok && slices.Contains(words, s) {
		*to = s
		return
	}
	hint := ""
	if s, ok := v.(string); ok {
		hint = DidYouMean(s, words)
	}
	r.fault(key, -1, v, quoted(words), hint)
}

func (r *reader) unknown(key string) {
	f := board.Finding{Level: board.Fault, Entry: key, Message: fmt.Sprintf("there is no setting %q", key), Hint: DidYouMean(key, keys())}
	if f.Hint == "" {
		f.Hint = "the settings are " + strings.Join(keys(), ", ")
	}
	f.File, f.Line, f.Col = r.config.keyPlace(key)
	r.found = append(r.found, f)
}

// fault keeps that the value of a setting, or one element of it, is wrong.
func (r *reader) fault(key string, index int, v any, expected, hint string) {
	f := board.Finding{Level: board.Fault, Entry: key, Hint: hint,
		Message: fmt.Sprintf("%s is %s; expected %s", key, show(v), expected)}
	var ok bool
	if f.File, f.Line, f.Col, ok = r.config.Place(key, index); !ok {
		f.File, f.Line, f.Col = r.config.keyPlace(key)
	}
	r.found = append(r.found, f)
}

// keyPlace is where a key, or its table, first stands.
func (c Config) keyPlace(key string) (file string, line, col int) {
	for _, e := range c.lines.entries {
		if e.path() == key || e.table == "" && strings.HasPrefix(e.key, key+".") {
			line, col = c.lines.place(e.at)
			return c.file, line, col
		}
	}
	for _, t := range c.lines.tables {
		if t.name == key || strings.HasPrefix(t.name, key+".") {
			line, col = c.lines.place(t.at)
			return c.file, line, col
		}
	}
	return c.file, 0, 0
}

// show words a value for a message.
func show(v any) string {
	switch x := v.(type) {
	case string:
		return fmt.Sprintf("%q", x)
	case int64, float64, bool:
		return fmt.Sprint(x)
	case []any:
		return fmt.Sprintf("a list of %d", len(x))
	case map[string]any:
		return "a table"
	case []map[string]any:
		return "a list of tables"
	}
	return "a date or time"
}

func quoted(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = fmt.Sprintf("%q", w)
	}
	return strings.Join(q[:len(q)-1], ", ") + " or " + q[len(q)-1]
}
