package code

import (
	"bytes"
	"encoding/binary"
	"math/bits"
	"slices"
	"sync"
)

// The two bytes that a view has in place of what it leaves out. They part
// their neighbours and stand for no stroke.
const (
	Body = 0x00 // the body of a literal
	Gap  = 0x01 // a comment inside a line
)

// rule says what opens with a text: read is called with the position before
// it, and either reads on past it and returns true, or does nothing.
type rule struct {
	open string
	read func(v *viewer, open string) bool
}

// rules are the rules of a language by first byte, in the order of trial.
type rules struct {
	at     [256][]rule
	begins [256]uint8             // 1: a rule may begin here
	inTwo  func() *[1 << 16]uint8 // begins of two bytes in a row, the first lowest
	// commands says that a call needs no brackets, so that a slash after a name
	// and a space may begin a regular expression.
	commands bool
}

func newRules(list ...rule) *rules {
	r := &rules{}
	for _, one := range list {
		first := one.open[0]
		r.at[first] = append(r.at[first], one)
		r.begins[first] = 1
	}
	r.inTwo = sync.OnceValue(r.ofTwo)
	return r
}

// ofTwo tables begins for two bytes at a time, which halves the look-ups.
func (r *rules) ofTwo() *[1 << 16]uint8 {
	table := new([1 << 16]uint8)
	for two := range table {
		table[two] = r.begins[two&0xff] | r.begins[two>>8]<<1
	}
	return table
}

// viewer makes the code view of one source.
type viewer struct {
	*rules
	src   []byte
	i     int // what is before is read
	out   []byte
	depth int // of code inside literals
	// documents are those that the line opened, to be read after it.
	documents []document
	two       *[1 << 16]uint8 // what rules.inTwo gives
}

// viewer begins a view of src that is appended to dst.
func (r *rules) viewer(src, dst []byte) *viewer {
	return &viewer{rules: r, src: src, out: dst, two: r.inTwo()}
}

// View appends the code view of src to dst: src without comments, with one
// Body for the body of each literal. The quotes of literals stay, and so does
// all space but that before a comment; a line of nothing but comment goes whole.
func (l *Language) View(dst, src []byte) []byte {
	v := l.viewer(src, dst)
	v.code(0)
	return v.out
}

// code reads code up to the end or, inside a literal, up to the closing
// bracket that is not part of the code; it stays before that.
func (v *viewer) code(closing byte) {
	nested := 0
	opening := opener(closing)
	for v.i < len(v.src) {
		n := v.plainLen(closing, opening)
		v.out = append(v.out, v.src[v.i:v.i+n]...)
		v.i += n
		if v.i == len(v.src) {
			return
		}
		c := v.src[v.i]
		if closing != 0 && c == closing {
			if nested == 0 {
				return
			}
			nested--
		} else if closing != 0 && c == opening {
			nested++
		}
		if !v.try(c) {
			v.keep(1)
		}
	}
}

// plainLen is the number of bytes from here on at which nothing can begin or
// end.
func (v *viewer) plainLen(closing, opening byte) (n int) {
	rest := v.src[v.i:]
	if closing != 0 {
		for n < len(rest) && v.begins[rest[n]] == 0 && rest[n] != closing && rest[n] != opening {
			n++
		}
		return n
	}
	two, le := v.two, binary.LittleEndian
	for ; len(rest) >= 8; rest = rest[8:] { // eight at a time: much faster than one by one
		at := two[le.Uint16(rest)] | two[le.Uint16(rest[2:])]<<2 | two[le.Uint16(rest[4:])]<<4 | two[le.Uint16(rest[6:])]<<6
		if at != 0 {
			return n + bits.TrailingZeros8(at)
		}
		n += 8
	}
	for _, c := range rest {
		if v.begins[c] != 0 {
			break
		}
		n++
	}
	return n
}

func opener(closing byte) byte {
	switch closing {
	case ')':
		return '('
	case '}':
		return '{'
	case ']':
		return '['
	}
	return closing
}

func (v *viewer) try(c byte) bool {
	rules := v.at[c]
	for i := range rules {
		if r := &rules[i]; v.has(r.open) && r.read(v, r.open) {
			return true
		}
	}
	return false
}

// has tells whether the source goes on with s, whose first byte is there.
func (v *viewer) has(s string) bool {
	return len(s) == 1 || len(v.src)-v.i >= len(s) && v.src[v.i+1] == s[1] && (len(s) == 2 || string(v.src[v.i:v.i+len(s)]) == s)
}

// peek is the byte n after the position, 0 past the end.
func (v *viewer) peek(n int) byte {
	if at := v.i + n; at >= 0 && at < len(v.src) {
		return v.src[at]
	}
	return 0
}

// keep reads n bytes as code.
func (v *viewer) keep(n int) {
	end := min(v.i+n, len(v.src))
	v.out = append(v.out, v.src[v.i:end]...)
	v.i = end
}

// body reads up to the position end as the body of a literal.
func (v *viewer) body(end int) {
	if end > v.i && (len(v.out) == 0 || v.out[len(v.out)-1] != Body) {
		v.out = append(v.out, Body)
	}
	v.i = end
}

// comment reads up to the position end as comment.
func (v *viewer) comment(end int) {
	v.i = end
	text := withoutSpace(v.out)
	before := len(text) == 0 || text[len(text)-1] == '\n'
	rest := v.i
	for rest < len(v.src) && (v.src[rest] == ' ' || v.src[rest] == '\t' || v.src[rest] == '\r') {
		rest++
	}
	after := rest == len(v.src) || v.src[rest] == '\n'
	switch {
	case before && after:
		v.out = text
		v.i = min(rest+1, len(v.src))
	case after:
		v.out = text
		v.i = rest
	case !before:
		v.out = append(v.out, Gap)
	}
}

// withoutSpace cuts spaces and tabs off the end.
func withoutSpace(text []byte) []byte {
	n := len(text)
	for n > 0 && (text[n-1] == ' ' || text[n-1] == '\t') {
		n--
	}
	return text[:n]
}

// find is the position after the next s at or after from, or the end.
func (v *viewer) find(from int, s string) int {
	from = min(from, len(v.src))
	if at := bytes.Index(v.src[from:], []byte(s)); at >= 0 {
		return from + at + len(s)
	}
	return len(v.src)
}

// lineEnd is the position of the next line feed at or after from, or the end.
func (v *viewer) lineEnd(from int) int {
	from = min(from, len(v.src))
	if at := bytes.IndexByte(v.src[from:], '\n'); at >= 0 {
		return from + at
	}
	return len(v.src)
}

// wordBefore returns the letters, digits and underscores right before the
// position.
func (v *viewer) wordBefore() []byte {
	start := v.i
	for start > 0 && isWord(v.src[start-1]) {
		start--
	}
	return v.src[start:v.i]
}

func isWord(c byte) bool {
	return c == '_' || c >= 0x80 || isDigit(c) || isLetter(c)
}

func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// oneOf tells whether word is one of words.
func oneOf(word []byte, words ...string) bool { return slices.Contains(words, string(word)) }
