package board

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"
)

// place is a line and a column of a file, both from 1, the column in
// characters. The zero place is unknown.
type place struct{ line, col int }

// site is where a TOML value stands.
type site struct {
	key, value place
	// text is where the content of a literal string of several lines begins;
	// unknown for other values, whose text may differ from what is written.
	text place
}

// places finds where the values of a valid TOML file stand, which the decoder
// does not tell: by path, "layer.0.keys" or "prefer.(". Headers of tables and
// elements of arrays have a path, too.
type places map[string]site

// scanPlaces goes through src, which the TOML decoder has accepted. What it
// does not understand it leaves out; a path without a site is shown without a
// place.
func scanPlaces(src []byte) places {
	s := &scanner{src: src, line: 1, col: 1, found: places{}, tables: map[string]int{}}
	for s.blank(true); s.pos < len(s.src); s.blank(true) {
		before := s.pos
		if s.src[s.pos] == '[' {
			s.header()
		} else {
			s.pair(s.prefix)
		}
		if s.pos == before {
			s.next()
		}
	}
	return s.found
}

type scanner struct {
	src       []byte
	pos       int
	line, col int
	found     places
	prefix    string
	tables    map[string]int // how many tables of an array have begun
}

func (s *scanner) here() place { return place{s.line, s.col} }

func (s *scanner) peek() byte {
	if s.pos < len(s.src) {
		return s.src[s.pos]
	}
	return 0
}

// next goes on by one character.
func (s *scanner) next() {
	if s.pos >= len(s.src) {
		return
	}
	if s.src[s.pos] == '\n' {
		s.line, s.col = s.line+1, 0
	}
	_, n := utf8.DecodeRune(s.src[s.pos:])
	s.pos += n
	s.col++
}

func (s *scanner) skip(n int) {
	for range n {
		s.next()
	}
}

// blank skips blanks and comments, and line ends where lines is set.
func (s *scanner) blank(lines bool) {
	for s.pos < len(s.src) {
		switch c := s.src[s.pos]; {
		case c == ' ' || c == '\t' || c == '\r' || lines && c == '\n':
			s.next()
		case c == '#':
			for s.pos < len(s.src) && s.src[s.pos] != '\n' {
				s.next()
			}
		default:
			return
		}
	}
}

func join(prefix, name string) string {
	if prefix == "" {
		return name
	}
	return prefix + "." + name
}

// header reads [table] or [[table]].
func (s *scanner) header() {
	at := s.here()
	s.next()
	array := s.peek() == '['
	if array {
		s.next()
	}
	path := ""
	for _, part := range s.key() {
		path = join(path, part)
		if n := s.tables[path]; n > 0 && !array {
			path = join(path, strconv.Itoa(n-1))
		}
	}
	if array {
		s.tables[path]++
		path = join(path, strconv.Itoa(s.tables[path]-1))
	}
	for s.peek() == ']' {
		s.next()
	}
	s.found[path] = site{key: at, value: at}
	s.prefix = path
}

// key reads a bare, quoted or dotted key.
func (s *scanner) key() []string {
	var parts []string
	for {
		s.blank(false)
		switch c := s.peek(); c {
		case '"', '\'':
			parts = append(parts, s.quoted())
		default:
			start := s.pos
			for s.pos < len(s.src) && !bytes.ContainsRune([]byte(" \t=.]\r\n"), rune(s.src[s.pos])) {
				s.next()
			}
			parts = append(parts, string(s.src[start:s.pos]))
		}
		s.blank(false)
		if s.peek() != '.' {
			return parts
		}
		s.next()
	}
}

// quoted reads a string on one line and returns what it says.
func (s *scanner) quoted() string {
	quote := s.peek()
	start := s.pos
	s.next()
	for s.pos < len(s.src) && s.peek() != quote && s.peek() != '\n' {
		if s.peek() == '\\' && quote == '"' {
			s.next()
		}
		s.next()
	}
	s.next()
	text := string(s.src[start:min(s.pos, len(s.src))])
	if quote == '"' {
		if plain, err := strconv.Unquote(text); err == nil {
			return plain
		}
	}
	return strings.Trim(text, string(quote))
}

// pair reads key = value.
func (s *scanner) pair(prefix string) {
	at := s.here()
	path := prefix
	for _, part := range s.key() {
		path = join(path, part)
	}
	if s.peek() != '=' {
		return
	}
	s.next()
	s.blank(false)
	s.found[path] = site{key: at, value: s.here()}
	s.value(path)
}

func (s *scanner) value(path string) {
	rest := s.src[s.pos:]
	switch {
	case bytes.HasPrefix(rest, []byte("'''")), bytes.HasPrefix(rest, []byte(`"""`)):
		s.block(path, string(rest[:3]))
	case s.peek() == '"' || s.peek() == '\'':
		s.quoted()
	case s.peek() == '[':
		s.array(path)
	case s.peek() == '{':
		s.inline(path)
	default:
		for s.pos < len(s.src) && !bytes.ContainsRune([]byte(",]}#\n"), rune(s.src[s.pos])) {
			s.next()
		}
	}
}

// block reads a string of several lines.
func (s *scanner) block(path, quote string) {
	s.skip(3)
	if quote == "'''" {
		// A line end right after the quotes is no part of the text.
		if bytes.HasPrefix(s.src[s.pos:], []byte("\r\n")) {
			s.next()
		}
		if s.peek() == '\n' {
			s.next()
		}
		at := s.found[path]
		at.text = s.here()
		s.found[path] = at
	}
	for s.pos < len(s.src) && !bytes.HasPrefix(s.src[s.pos:], []byte(quote)) {
		if s.peek() == '\\' && quote == `"""` {
			s.next()
		}
		s.next()
	}
	s.skip(3)
	for s.peek() == quote[0] { // up to two quotes may end the text itself
		s.next()
	}
}

func (s *scanner) array(path string) {
	s.next()
	for i := 0; ; i++ {
		s.blank(true)
		if s.pos >= len(s.src) || s.peek() == ']' {
			s.next()
			return
		}
		before := s.pos
		element := join(path, strconv.Itoa(i))
		s.found[element] = site{key: s.here(), value: s.here()}
		s.value(element)
		s.blank(true)
		if s.peek() == ',' {
			s.next()
		}
		if s.pos == before {
			return
		}
	}
}

func (s *scanner) inline(path string) {
	s.next()
	for {
		s.blank(true)
		if s.pos >= len(s.src) || s.peek() == '}' {
			s.next()
			return
		}
		before := s.pos
		s.pair(path)
		s.blank(true)
		if s.peek() == ',' {
			s.next()
		}
		if s.pos == before {
			return
		}
	}
}
