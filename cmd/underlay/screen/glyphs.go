package screen

import (
	"strings"
	"unicode/utf8"

	"underlay/cmd/underlay/session"
)

// glyphs are the signs that a terminal can show.
type glyphs struct {
	ascii       bool
	open, shut  string // around a named key
	off         string // a legend that is left off
	caret       string // where the next symbol will stand
	arrow, more string
	names       *strings.Replacer // signs of keys, to names
}

func glyphsFor(ascii bool) glyphs {
	if ascii {
		return glyphs{ascii: true, open: "<", shut: ">", off: ".", caret: "_", arrow: "->", more: "...",
			names: strings.NewReplacer("␣", "Space", "⇥", "Tab", "⏎", "Enter", "←", "Left", "→", "Right", "↑", "Up", "↓", "Down")}
	}
	return glyphs{open: "‹", shut: "›", off: "·", caret: "▁", arrow: "→", more: "…"}
}

// text returns what to draw for a cell of a prompt, without the marks around
// a named one.
func (g *glyphs) text(c *session.Cell) string {
	if !g.ascii || len(c.Text) == 1 {
		return c.Text
	}
	return g.names.Replace(c.Text)
}

// named tells whether a cell is set apart by marks.
func (g *glyphs) named(c *session.Cell) bool { return c.Named || g.ascii && c.Blank }

// inASCII returns what stands for one of our own signs where only ASCII can be
// shown; what is not ours stays, and the terminal shows what it can.
func inASCII(sign string) string {
	switch r, _ := utf8.DecodeRuneInString(sign); r {
	case '·':
		return "-"
	case '◔':
		return "o"
	case '●':
		return "@"
	case '◌':
		return "?"
	case '…':
		return "~"
	case '→':
		return ">"
	case '←':
		return "<"
	case '↑':
		return "^"
	case '↓':
		return "v"
	case '␣':
		return "_"
	case '×':
		return "x"
	case '\u2800': // empty braille cell
		return " "
	default:
		switch {
		case r > 0x2800 && r <= 0x28ff: // braille, the dots of a curve
			return "*"
		case r >= '▁' && r <= '▏': // block elements, the length of a bar
			return "#"
		}
	}
	return sign
}
