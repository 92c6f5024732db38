package config

import (
	"strings"
	"unicode/utf8"
)

// document is a TOML text with the places of its entries. It is found by a
// scanner of our own since the decoder tells neither where a value stands nor
// keeps comments. The text has to be valid TOML; only its outline is read.
type document struct {
	src     string
	entries []entry
	tables  []header
	inline  []entry // of tables that are written as a value, { key = value }
}

// entry is one "key = value". Offsets are bytes; the value has no comment.
type entry struct {
	table    string // dotted name of the table it stands in; "" at the top
	key      string // dotted, unquoted
	at       int    // of the key
	from, to int    // of the value
	elements []span // of an array
}

// header is one "[table]" line.
type header struct {
	name     string
	at, next int // of the line, and of the one after it
}

type span struct{ from, to int }

func outline(src string) *document {
	s := &scanner{src: src}
	d := &document{src: src}
	table := ""
	for s.skip(" \t\r\n", true); s.i < len(src); s.skip(" \t\r\n", true) {
		start := s.i
		if src[s.i] == '[' {
			table = s.header()
			d.tables = append(d.tables, header{table, start, s.lineEnd()})
			continue
		}
		e := entry{table: table, at: start, key: s.key()}
		s.skip(" \t", false)
		e.from = s.i
		s.inner = nil
		e.elements = s.value()
		e.to = s.i
		d.entries = append(d.entries, e)
		for _, in := range s.inner {
			in.table = e.path()
			d.inline = append(d.inline, in)
		}
	}
	return d
}

// path is the dotted name of an entry from the top of the file.
func (e entry) path() string {
	if e.table == "" {
		return e.key
	}
	return e.table + "." + e.key
}

// find returns the entry at a dotted path.
func (d *document) find(path string) (entry, bool) { return find(d.entries, path) }

func find(in []entry, path string) (entry, bool) {
	for _, e := range in {
		if e.path() == path {
			return e, true
		}
	}
	return entry{}, false
}

// place turns an offset into a line and a column, both from 1; columns count
// characters.
func (d *document) place(offset int) (line, col int) {
	before := d.src[:min(offset, len(d.src))]
	start := strings.LastIndexByte(before, '\n') + 1
	return strings.Count(before, "\n") + 1, utf8.RuneCountInString(before[start:]) + 1
}

// scanner walks over a TOML text.
type scanner struct {
	src   string
	i     int
	inner []entry // of the inline tables met
}

// skip passes over the given bytes, and over comments if asked to.
func (s *scanner) skip(space string, comments bool) {
	for s.i < len(s.src) {
		switch c := s.src[s.i]; {
		case strings.IndexByte(space, c) >= 0:
			s.i++
		case comments && c == '#':
			s.i = s.lineEnd()
		default:
			return
		}
	}
}

// lineEnd is the offset after the end of the current line.
func (s *scanner) lineEnd() int {
	if n := strings.IndexByte(s.src[s.i:], '\n'); n >= 0 {
		return s.i + n + 1
	}
	return len(s.src)
}

// header reads "[name]" or "[[name]]" and the rest of its line.
func (s *scanner) header() string {
	s.skip("[", false)
	name := s.dotted(']')
	s.i = s.lineEnd()
	return name
}

// key reads a key and the "=" after it.
func (s *scanner) key() string {
	k := s.dotted('=')
	if s.i < len(s.src) {
		s.i++
	}
	return k
}

// dotted reads a key of bare and quoted parts up to the byte end.
func (s *scanner) dotted(end byte) string {
	var b strings.Builder
	for s.i < len(s.src) && s.src[s.i] != end && s.src[s.i] != '\n' {
		switch c := s.src[s.i]; c {
		case '"', '\'':
			from := s.i + 1
			s.quoted()
			b.WriteString(s.src[from:max(from, s.i-1)])
		case ' ', '\t':
			s.i++
		default:
			b.WriteByte(c)
			s.i++
		}
	}
	return b.String()
}

// quoted passes over a string of any of the four kinds.
func (s *scanner) quoted() {
	mark := s.src[s.i : s.i+1]
	if triple := strings.Repeat(mark, 3); strings.HasPrefix(s.src[s.i:], triple) {
		mark = triple
	}
	for s.i += len(mark); s.i < len(s.src); s.i++ {
		if mark[0] == '"' && s.src[s.i] == '\\' {
			s.i++
			continue
		}
		if strings.HasPrefix(s.src[s.i:], mark) {
			s.i += len(mark)
			for len(mark) == 3 && s.i < len(s.src) && s.src[s.i] == mark[0] { // up to two more belong to it
				s.i++
			}
			return
		}
	}
}

// value passes over a value; of an array it returns where the elements are.
func (s *scanner) value() []span {
	if s.i >= len(s.src) {
		return nil
	}
	switch s.src[s.i] {
	case '"', '\'':
		s.quoted()
	case '[':
		return s.list(']')
	case '{':
		s.list('}')
	default:
		from := s.i
		for s.i < len(s.src) && strings.IndexByte(",]}#\n", s.src[s.i]) < 0 {
			s.i++
		}
		s.i = from + len(strings.TrimRight(s.src[from:s.i], " \t\r"))
	}
	return nil
}

// list passes over an array or an inline table.
func (s *scanner) list(end byte) []span {
	var out []span
	for s.i++; s.i < len(s.src); {
		s.skip(" \t\r\n,", true)
		if s.i >= len(s.src) {
			break
		}
		if s.src[s.i] == end {
			s.i++
			break
		}
		in := entry{at: s.i}
		if end == '}' {
			in.key = s.key()
			s.skip(" \t", false)
		}
		from := s.i
		s.value()
		if s.i == from { // not TOML; go on all the same
			s.i++
		}
		out = append(out, span{from, s.i})
		if in.from, in.to = from, s.i; end == '}' {
			s.inner = append(s.inner, in)
		}
	}
	return out
}
