package code

import (
	"bytes"
	"encoding/binary"
	"math/bits"
)

// line is a comment from open to the end of the line.
func line(open string) rule {
	return rule{open, func(v *viewer, open string) bool {
		v.comment(v.lineEnd(v.i + len(open)))
		return true
	}}
}

// block is a comment from open to close.
func block(open, close string) rule {
	return rule{open, func(v *viewer, open string) bool {
		v.comment(v.find(v.i+len(open), close))
		return true
	}}
}

// nested is a comment from open to close that may hold others of its kind.
func nested(open, close string) rule {
	return rule{open, func(v *viewer, open string) bool {
		i := v.i + len(open)
		for depth := 1; depth > 0 && i < len(v.src); {
			switch rest := v.src[i:]; {
			case bytes.HasPrefix(rest, []byte(open)):
				depth++
				i += len(open)
			case bytes.HasPrefix(rest, []byte(close)):
				depth--
				i += len(close)
			default:
				i++
			}
		}
		v.comment(min(i, len(v.src)))
		return true
	}}
}

// reach says how far a literal goes where nothing closes it.
type reach int

const (
	oneLine   reach = iota // it ends with its line, unless a backslash is before the end
	manyLines              // it ends with the source
)

// escaped is a literal from quote to quote, in which a backslash takes away the
// meaning of the next byte.
func escaped(quote string, far reach) rule {
	return rule{quote, func(v *viewer, quote string) bool {
		v.keep(len(quote))
		v.closed(quote, far, '\\')
		return true
	}}
}

// doubled is a literal from quote to quote, in which the quote is written
// twice: to the scanner two literals in a row, of which the inner quotes are
// body.
func doubled(quote string) rule {
	return rule{quote, func(v *viewer, quote string) bool {
		v.keep(1)
		i := v.i
		for i < len(v.src) && (v.src[i] != quote[0] || i+1 < len(v.src) && v.src[i+1] == quote[0]) {
			if v.src[i] == quote[0] {
				i++
			}
			i++
		}
		v.body(min(i, len(v.src)))
		v.keep(1)
		return true
	}}
}

// verbatim is a literal from open to close in which nothing is special.
func verbatim(open, close string) rule {
	return rule{open, func(v *viewer, open string) bool {
		v.keep(len(open))
		v.upTo(close)
		return true
	}}
}

// verbatimLine is a literal of one line in which nothing is special.
func verbatimLine(quote string) rule {
	return rule{quote, func(v *viewer, quote string) bool {
		v.keep(len(quote))
		v.closed(quote, oneLine, 0)
		return true
	}}
}

// upTo reads the body of a literal up to close, and close.
func (v *viewer) upTo(close string) {
	end := v.find(v.i, close)
	if bytes.HasSuffix(v.src[v.i:end], []byte(close)) {
		v.body(end - len(close))
		v.keep(len(close))
		return
	}
	v.body(end)
}

// closed reads the body of a literal, with the code inside it, up to its quote,
// and the quote. The byte escape, if it is not 0, takes away the meaning of the
// next one, or of the two that end a line.
func (v *viewer) closed(quote string, far reach, escape byte, holes ...inside) {
	src, first := v.src, quote[0]
	i := v.i
	for i < len(src) {
		if len(holes) == 0 {
			i += without(src[i:], first, escape, '\n')
		} else if after := v.holeAt(i, holes); after > i {
			i = after
			continue
		}
		if i == len(src) {
			break
		}
		c := src[i]
		if c != escape && c != first && c != '\n' { // most of a body
			i++
			continue
		}
		switch {
		case c == escape && escape != 0:
			i++
			if i+1 < len(src) && src[i] == '\r' && src[i+1] == '\n' {
				i++
			}
		case c == '\n' && far == oneLine:
			v.body(i)
			return
		case c == first && (len(quote) == 1 || bytes.HasPrefix(src[i:], []byte(quote))):
			v.body(i)
			v.keep(len(quote))
			return
		}
		i++
	}
	v.body(len(src))
}

// without is how many of the first bytes of text are surely none of three;
// where fewer than eight are left it does not look.
func without(text []byte, a, b, c byte) (n int) {
	const each, high = 0x0101010101010101, 0x8080808080808080
	as, bs, cs := each*uint64(a), each*uint64(b), each*uint64(c)
	for ; len(text) >= 8; text = text[8:] {
		// A byte that is equal leaves 0, which borrows: its high bit is the lowest set.
		word := binary.LittleEndian.Uint64(text)
		x, y, z := word^as, word^bs, word^cs
		if equal := ((x-each)&^x | (y-each)&^y | (z-each)&^z) & high; equal != 0 {
			return n + bits.TrailingZeros64(equal)>>3
		}
		n += 8
	}
	return n
}
