package board

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// Limits of a board file. A file beyond them is no keyboard; they keep the
// search for strokes short whatever is read.
const (
	maxSource = 256 << 10 // bytes
	maxLines  = 12        // rows of a picture, thumb rows among them
	maxRow    = 32        // keys in a row
	maxLayers = 32
	maxCombos = 200
)

// Read reads a board file. The board is nil where a fault makes it unusable;
// the findings list everything that was seen, not the first fault alone. file
// is the name that findings give.
func Read(file string, src []byte) (*Board, Findings) {
	return read(file, src, "")
}

func read(file string, src []byte, osLayout string) (*Board, Findings) {
	r := &reader{file: file, vocab: newVocabulary(), board: &Board{origin: newOrigin(src)}}
	if r.decode(src) {
		r.top(osLayout)
		r.readLayers()
	}
	if r.found.Err() == nil {
		r.board.search()
		r.inspect()
	}
	r.found.sort()
	if r.found.Err() != nil {
		return nil, r.found
	}
	return r.board, r.found
}

// reader holds what is known while a file is read.
type reader struct {
	file   string
	vocab  *vocabulary
	board  *Board
	doc    map[string]any
	places places
	found  Findings
}

func (r *reader) add(level Level, at place, entry, message, hint string) {
	r.found = append(r.found, Finding{File: r.file, Line: at.line, Col: at.col,
		Level: level, Entry: entry, Message: message, Hint: hint})
}

func (r *reader) fault(at place, entry, message, hint string) {
	r.add(Fault, at, entry, message, hint)
}

func (r *reader) decode(src []byte) bool {
	if len(src) > maxSource {
		r.fault(place{}, "", fmt.Sprintf("the file has %d bytes; a board needs no more than %d", len(src), maxSource), "")
		return false
	}
	if _, err := toml.Decode(string(src), &r.doc); err != nil {
		at, message := place{1, 1}, err.Error()
		var parse toml.ParseError
		if errors.As(err, &parse) {
			at, message = place{parse.Position.Line, tomlColumn(src, parse.Position)}, parse.Message
			if message == "" {
				message = strings.TrimPrefix(parse.Error(), "toml: ")
			}
		}
		hint := ""
		if strings.Contains(message, "string") || strings.Contains(message, "EOF") || strings.Contains(message, "escape") {
			hint = "pictures of layers stand best between ''' and '''"
		}
		r.fault(at, "", "not valid TOML: "+message, hint)
		return false
	}
	r.places = scanPlaces(src)
	return true
}

// tomlColumn counts the characters before the offset of a decoding error.
func tomlColumn(src []byte, p toml.Position) int {
	start := min(max(p.Start, 0), len(src))
	line := src[:start]
	if i := strings.LastIndexByte(string(line), '\n'); i >= 0 {
		line = line[i+1:]
	}
	return utf8.RuneCount(line) + 1
}

// top reads what stands above the layers.
func (r *reader) top(osLayout string) {
	r.known(r.doc, "", "name", "title", "os-layout", "shape", "layer", "combo", "prefer")
	b := r.board
	b.Name = r.text(r.doc, "", "name")
	if b.Name == "" && r.found.Err() == nil {
		r.fault(place{1, 1}, "", "the board has no name", `write name = "my-board" at the top`)
	}
	b.Title = r.text(r.doc, "", "title")
	if b.OSLayout = r.text(r.doc, "", "os-layout"); b.OSLayout == "" {
		b.OSLayout = "us"
	}
	if osLayout != "" {
		b.OSLayout = osLayout
	}
	var err error
	if b.layout, err = loadOSLayout(b.OSLayout); err != nil {
		hint := "there are " + strings.Join(OSLayouts(), ", ")
		r.fault(r.places["os-layout"].value, b.OSLayout, err.Error(), hint)
	}
}

// known faults what a table has and the format does not.
func (r *reader) known(table map[string]any, path string, names ...string) {
	for key := range table {
		if slices.Contains(names, key) {
			continue
		}
		hint := "known here are " + strings.Join(names, ", ")
		if near := nearest(key, names); near != "" {
			hint = "did you mean " + near + "?"
		}
		r.fault(r.places[join(path, key)].key, key, fmt.Sprintf("%q is no entry of a board file here", key), hint)
	}
}

// text returns a string value, or "" where it is absent or faulty.
func (r *reader) text(table map[string]any, path, key string) string {
	value, there := table[key]
	if !there {
		return ""
	}
	s, ok := value.(string)
	if !ok {
		r.wrongType(join(path, key), "a text in quotes")
	}
	return s
}

func (r *reader) wrongType(path, want string) {
	r.fault(r.places[path].value, path, fmt.Sprintf("%s has to be %s", entryName(path), want), "")
}

// entryName is what a path is called in a message: its last name, and which of
// a list it is.
func entryName(path string) string {
	parts := strings.Split(path, ".")
	last := parts[len(parts)-1]
	if n, err := strconv.Atoi(last); err == nil && len(parts) > 1 {
		return fmt.Sprintf("%s %d", parts[len(parts)-2], n+1)
	}
	return last
}

// number reads one number in a range.
func (r *reader) number(value any, path string, low, high float64) float64 {
	var n float64
	switch v := value.(type) {
	case int64:
		n = float64(v)
	case float64:
		n = v
	default:
		r.wrongType(path, "a number")
		return 0
	}
	if math.IsNaN(n) || n < low || n > high {
		r.fault(r.places[path].value, path, fmt.Sprintf("%s is %v; it has to lie between %v and %v", entryName(path), n, low, high), "lengths are in key units: one key is 1")
		return 0
	}
	return n
}

// numbers reads an array of numbers; nil where it is absent.
func (r *reader) numbers(table map[string]any, path, key string, low, high float64) []float64 {
	value, there := table[key]
	if !there {
		return nil
	}
	list, ok := value.([]any)
	if !ok {
		r.wrongType(join(path, key), "a list of numbers")
		return nil
	}
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = r.number(v, fmt.Sprintf("%s.%d", join(path, key), i), low, high)
	}
	return out
}

// texts reads an array of strings; nil where it is absent.
func (r *reader) texts(table map[string]any, path, key string) []string {
	value, there := table[key]
	if !there {
		return nil
	}
	list, ok := value.([]any)
	if !ok {
		r.wrongType(join(path, key), "a list of texts in quotes")
		return nil
	}
	var out []string
	for i, v := range list {
		s, ok := v.(string)
		if !ok {
			r.wrongType(fmt.Sprintf("%s.%d", join(path, key), i), "a text in quotes")
			continue
		}
		out = append(out, s)
	}
	return out
}

// tablesOf reads an array of tables.
func (r *reader) tablesOf(key string) []map[string]any {
	value, there := r.doc[key]
	if !there {
		return nil
	}
	if list, ok := value.([]map[string]any); ok {
		return list
	}
	r.fault(r.places[key].key, key, fmt.Sprintf("%s has to be written as [[%s]], once for each", key, key), "")
	return nil
}
