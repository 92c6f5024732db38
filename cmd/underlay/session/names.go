package session

import (
	"strings"
	"unicode"

	"golang.org/x/text/width"

	"underlay/drills"
	"underlay/drills/board"
)

// label writes a symbol so that it cannot be taken for another.
func label(s board.Symbol) string {
	if n := nameOf(s); n != "" {
		if s.IsCharacter() {
			return safe(string(s)) + "  " + n
		}
		return n
	}
	if _, ok := s.Rune(); !ok && strings.HasPrefix(string(s), "<") {
		return safe(drills.KeyName(s)) // a key that no program sees
	}
	return safe(string(s))
}

// nameOf names symbols that are hard to see or to tell apart, or "".
func nameOf(s board.Symbol) string {
	switch s {
	case board.Space:
		return "space"
	case board.Tab:
		return "tab"
	case board.Enter:
		return "enter, the end of the line"
	case "l":
		return "small letter l"
	case "I":
		return "capital letter i"
	case "1":
		return "digit one"
	case "|":
		return "vertical bar"
	case "O":
		return "capital letter o"
	case "0":
		return "digit zero"
	case "'":
		return "straight single quote"
	case "`":
		return "backquote"
	case "\"":
		return "straight double quote"
	case ".":
		return "full stop"
	case ",":
		return "comma"
	case ":":
		return "colon"
	case ";":
		return "semicolon"
	case "-":
		return "hyphen, minus"
	case "_":
		return "underscore"
	case "~":
		return "tilde"
	case "^":
		return "circumflex"
	}
	r, ok := s.Rune()
	switch {
	case !ok:
		return ""
	case width.LookupRune(r).Kind() == width.EastAsianFullwidth:
		return "full-width, not the plain one"
	case unicode.Is(unicode.Zs, r):
		return "a space other than the plain one"
	}
	return ""
}
