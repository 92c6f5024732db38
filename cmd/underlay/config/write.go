package config

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"underlay/cmd/underlay/aside"
)

// Set returns src with a setting changed, and all else as it was: comments,
// order, spacing, other settings. value is a string, an int, a []string, or for
// the mix a map[string]float64. src has to be a configuration without faults;
// it may be empty. A comment inside a list that is replaced moves above it.
func Set(src, key string, value any) string {
	d := outline(src)
	if mix, ok := value.(map[string]float64); ok {
		if _, inline := d.find(key); !inline && d.spread(key) {
			return d.setTable(key, mix)
		}
	}
	text := render(value)
	e, ok := d.find(key)
	if !ok {
		return d.insert(key + " = " + text + "\n")
	}
	return src[:e.at] + comments(src[e.from:e.to]) + src[e.at:e.from] + text + src[e.to:]
}

// spread tells whether a table is written as "[key]" or "key.name = …".
func (d *document) spread(key string) bool {
	for _, e := range d.entries {
		if strings.HasPrefix(e.path(), key+".") {
			return true
		}
	}
	return slices.ContainsFunc(d.tables, func(h header) bool { return h.name == key })
}

// setTable changes the entries of a table that has lines of its own.
func (d *document) setTable(key string, to map[string]float64) string {
	var b strings.Builder
	done, last, end := map[string]bool{}, 0, -1
	prefix := key + "."
	for _, e := range d.entries {
		name, ok := strings.CutPrefix(e.path(), prefix)
		if !ok {
			continue
		}
		if w, keep := to[name]; keep {
			b.WriteString(d.src[last:e.from] + render(w))
			last, done[name] = e.to, true
		} else {
			b.WriteString(d.src[last:e.at] + "# " + d.src[e.at:e.to]) // a removed line stays as a comment
			last = e.to
		}
		end = e.to
		if e.table == "" {
			prefix = key + "." // dotted at the top: new ones are written alike
		}
	}
	if end < 0 {
		for _, h := range d.tables {
			if h.name == key {
				end = h.next
			}
		}
	} else {
		s := scanner{src: d.src, i: end}
		end = s.lineEnd()
	}
	b.WriteString(d.src[last:end])
	if end > 0 && d.src[end-1] != '\n' {
		b.WriteByte('\n')
	}
	for _, name := range sorted(to) {
		if !done[name] {
			fmt.Fprintf(&b, "%s%s = %s\n", d.lead(key), bare(name), render(to[name]))
		}
	}
	b.WriteString(d.src[end:])
	return b.String()
}

// lead is what a line of a table starts with: nothing under its header, the
// dotted name at the top.
func (d *document) lead(key string) string {
	for _, e := range d.entries {
		if e.table == "" && strings.HasPrefix(e.key, key+".") {
			return key + "."
		}
	}
	return ""
}

// insert adds a line after the last setting that stands before any table, or
// else before the first table.
func (d *document) insert(line string) string {
	at := len(d.src)
	if len(d.tables) > 0 {
		at = d.tables[0].at
	}
	end := at
	for _, e := range d.entries {
		if e.table == "" {
			s := scanner{src: d.src, i: e.to}
			at = s.lineEnd()
		}
	}
	head, tail := d.src[:at], d.src[at:]
	if head != "" && !strings.HasSuffix(head, "\n") {
		head += "\n"
	}
	if at == end && tail != "" {
		line += "\n" // apart from the table
	}
	return head + line + tail
}

// comments returns the comments in a value that is going to be replaced, as
// lines of their own.
func comments(value string) string {
	if !strings.HasPrefix(value, "[") {
		return ""
	}
	var b strings.Builder
	s := scanner{src: value, i: 1}
	for s.i < len(value) {
		switch value[s.i] {
		case '"', '\'':
			s.quoted()
		case '#':
			from := s.i
			s.i = s.lineEnd()
			b.WriteString(strings.TrimRight(value[from:s.i], "\r\n") + "\n")
		default:
			s.i++
		}
	}
	return b.String()
}

// render writes a value as TOML.
func render(value any) string {
	switch v := value.(type) {
	case string:
		return quote(v)
	case int:
		return strconv.Itoa(v)
	case float64:
		if v == math.Trunc(v) && math.Abs(v) < 1e15 {
			return strconv.FormatInt(int64(v), 10)
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	case []string:
		out := make([]string, len(v))
		for i, s := range v {
			out[i] = quote(s)
		}
		return "[" + strings.Join(out, ", ") + "]"
	case map[string]float64:
		var out []string
		for _, name := range sorted(v) {
			out = append(out, bare(name)+" = "+render(v[name]))
		}
		return "{ " + strings.Join(out, ", ") + " }"
	}
	panic(fmt.Sprintf("config: a setting cannot be a %T", value))
}

// quote writes a TOML basic string.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// bare writes a key, quoted where it has to be.
func bare(key string) string {
	for _, r := range key {
		if !(r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z') {
			return quote(key)
		}
	}
	if key == "" {
		return `""`
	}
	return key
}

func sorted(m map[string]float64) []string { return Config{Mix: m}.MixNames() }

// Write puts a configuration on disk: after a crash it is the old or the new
// one. A link stays a link; what it leads to is written.
func Write(file, text string) error {
	if real, err := filepath.EvalSymlinks(file); err == nil {
		file = real
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return err
	}
	return aside.Write(file, strings.NewReader(text))
}
