package corpus

import (
	"strings"

	"underlay/corpus/code"
)

// kind says what a byte of a view begins. Words go on over the first two.
type kind uint8

const (
	kindWord kind = iota
	kindDigit
	kindAlone // a mark that is a token alone
	kindMark
	kindSpace
	kindBody // what was left out, and control characters
)

// The classes of symbols, for pairs and triples; marks follow from classMark.
const (
	classNone = iota // the beginning
	classBody
	classLower
	classUpper
	classDigit
	classOther // outside of ASCII
	classSpace
	classBreak
	classMark
)

// asciiMarks are the 32 marks of ASCII, in their order.
const asciiMarks = "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"

// kinds and classes are what bytes are; they are never written again.
var kinds, classes = byteTables()

func byteTables() (kinds [256]kind, classes [256]uint8) {
	for b := range 256 {
		c := byte(b)
		mark := strings.IndexByte(asciiMarks, c)
		switch {
		case 'a' <= c && c <= 'z':
			kinds[b], classes[b] = kindWord, classLower
		case 'A' <= c && c <= 'Z':
			kinds[b], classes[b] = kindWord, classUpper
		case '0' <= c && c <= '9':
			kinds[b], classes[b] = kindDigit, classDigit
		case c >= 0x80:
			kinds[b], classes[b] = kindWord, classOther
		case c == ' ' || c == '\t' || c == '\r' || c == '\f':
			kinds[b], classes[b] = kindSpace, classSpace
		case c == '\n':
			kinds[b], classes[b] = kindSpace, classBreak
		case mark >= 0:
			kinds[b], classes[b] = markKind(c), uint8(classMark+mark)
		default:
			kinds[b], classes[b] = kindBody, classBody
		}
	}
	return kinds, classes
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

// token is a token of a line as a number: a class, a mark as its byte, a word
// of the language, or several marks.
type token uint16

const (
	tokenName token = 1 + iota
	tokenCapital
	tokenUpper
	tokenNumber
	tokenBody
	tokenBreak
	tokenRest // marks that there was no number left for

	firstWord  token = 128
	firstMarks token = 768
	maxTokens        = 2048
)

// lexicon numbers tokens.
type lexicon struct {
	texts    []string // of tokens
	slots    [1024]lexeme
	fold     bool // the language's words are the same in capitals
	marksID  map[uint64]token
	overflow int
}

type lexeme struct {
	lo, hi uint64
	token  token
}

func newLexicon(lang *code.Language) *lexicon {
	l := &lexicon{texts: make([]string, firstMarks), marksID: map[uint64]token{}, fold: lang.FoldsCase}
	for i, class := range []string{AnyName, CapitalName, UpperName, AnyNumber, Body, LineBreak} {
		l.texts[1+i] = class
	}
	for i := range asciiMarks {
		l.texts[asciiMarks[i]] = asciiMarks[i : i+1]
	}
	for i, w := range lang.Words {
		l.texts[int(firstWord)+i] = w
		l.enter(w, firstWord+token(i))
	}
	return l
}

func (l *lexicon) enter(word string, t token) {
	padded := make([]byte, len(word)+padding)
	copy(padded, word)
	lo, hi := load(padded, 0, min(len(word), 16))
	lo, hi = l.folded(lo, hi)
	at := home(lo, hi)
	for l.slots[at].token != 0 {
		at = (at + 1) % len(l.slots)
	}
	l.slots[at] = lexeme{lo, hi, t}
}

// folded takes the bit away that tells capitals from small letters.
func (l *lexicon) folded(lo, hi uint64) (uint64, uint64) {
	if l.fold {
		const small = 0x2020202020202020
		return lo &^ small, hi &^ small
	}
	return lo, hi
}

func home(lo, hi uint64) int {
	return int((lo ^ hi*31) * 0x9E3779B97F4A7C15 >> 54)
}

// word is the token of a word of the language, packed, of n bytes; 0 if it is none.
func (l *lexicon) word(lo, hi uint64, n int) token {
	if n > 16 {
		return 0
	}
	lo, hi = l.folded(lo, hi)
	for at := home(lo, hi); ; at = (at + 1) % len(l.slots) {
		s := &l.slots[at]
		if s.token == 0 || s.lo == lo && s.hi == hi {
			return s.token
		}
	}
}

// marks is the token of n marks at i.
func (l *lexicon) marks(src []byte, i, n int) token {
	if n == 1 {
		return token(src[i])
	}
	if n > 8 {
		return tokenRest
	}
	key, _ := load(src, i, n)
	return l.marksToken(key)
}

func (l *lexicon) marksToken(key uint64) token {
	t := l.marksID[key]
	if t == 0 {
		if len(l.texts) == maxTokens {
			return tokenRest
		}
		t = token(len(l.texts))
		l.texts = append(l.texts, unpack(key))
		l.marksID[key] = t
	}
	return t
}
