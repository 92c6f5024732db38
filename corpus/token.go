package corpus

import "strings"

// Token is one token of a line as the sections Start, End, Next and Line spell
// it. Text is one of the classes below, a word of the language ("return"), or
// marks: a bracket, a comma, a semicolon and a quote stand alone, other marks
// in a row are one token (":=", "->").
type Token struct {
	Text   string
	Spaced bool // a space is before it
}

// The classes of tokens. No language here has a word that is spelled so.
const (
	AnyName     = "x"  // a name that begins with a lower-case letter or an underscore
	CapitalName = "X"  // a name that begins with a capital
	UpperName   = "XX" // a name of two or more capitals, digits and underscores: MAX_LEN
	AnyNumber   = "0"  // a number literal
	Body        = "s"  // the body of a string or character literal, between its quotes
	LineBreak   = "\n" // before the first token of a line and after the last
)

// String spells the token with its space.
func (t Token) String() string {
	if t.Spaced {
		return " " + t.Text
	}
	return t.Text
}

// ParseToken reads the spelling of a token.
func ParseToken(s string) Token {
	text, spaced := strings.CutPrefix(s, " ")
	return Token{text, spaced}
}

// ParseLine takes a key of section Line apart.
func ParseLine(key string) []Token {
	var out []Token
	for i := 0; i < len(key); {
		spaced := key[i] == ' '
		if spaced {
			i++
		}
		n := tokenLen(key[i:])
		out = append(out, Token{key[i : i+n], spaced})
		i += n
	}
	return out
}

func tokenLen(s string) int {
	if s == "" {
		return 0
	}
	class := tokenByte(s[0])
	if class == alone {
		return 1
	}
	n := 1
	for n < len(s) && tokenByte(s[n]) == class {
		n++
	}
	return n
}

type byteClass uint8

const (
	space byteClass = iota
	alone
	mark
	letters
)

func tokenByte(c byte) byteClass {
	switch {
	case c == ' ':
		return space
	case strings.IndexByte("()[]{},;\"'`", c) >= 0:
		return alone
	case c == '_' || c >= 0x80 || '0' <= c && c <= '9' || 'a' <= c|0x20 && c|0x20 <= 'z':
		return letters
	}
	return mark
}
