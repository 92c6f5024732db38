package corpus

import "strings"

// kind says what a byte of a view begins. Words go on over the first two.
type kind uint8

const (
	kindWord kind = iota
	kindDigit
	kindAlone // a mark that is a token alone
	kindMark
	kindSpace
	kindBreak
	kindBody // what was left out, and control characters
)

// The classes of symbols, for pairs and triples. Those from classLower on are
// one byte, one stroke; marks follow from classMark on.
const (
	classNone  = iota // the beginning
	classBody         // what was left out
	classSpace        // also tabs: in a line they are alike
	classBreak
	classOther // outside of ASCII
	classLower
	classUpper
	classDigit
	classMark
)

// asciiMarks are the 32 marks of ASCII, in their order.
const asciiMarks = "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"

// alphabet says of each byte what it is.
type alphabet struct {
	kinds   [256]kind
	classes [256]uint8
}

func newAlphabet() *alphabet {
	a := &alphabet{}
	for b := range 256 {
		a.kinds[b], a.classes[b] = describe(byte(b))
	}
	return a
}

func describe(c byte) (kind, uint8) {
	switch {
	case 'a' <= c && c <= 'z':
		return kindWord, classLower
	case 'A' <= c && c <= 'Z':
		return kindWord, classUpper
	case '0' <= c && c <= '9':
		return kindDigit, classDigit
	case c >= 0x80:
		return kindWord, classOther
	case c == '\n':
		return kindBreak, classBreak
	case c == ' ' || c == '\t' || c == '\r' || c == '\f':
		return kindSpace, classSpace
	}
	if mark := strings.IndexByte(asciiMarks, c); mark >= 0 {
		return markKind(c), uint8(classMark + mark)
	}
	return kindBody, classBody
}

func markKind(c byte) kind {
	switch tokenByte(c) {
	case alone:
		return kindAlone
	case letters:
		return kindWord
	}
	return kindMark
}
