package screen

import (
	"underlay/cmd/underlay/session"
	"underlay/scheduler"
)

// glyphs are the signs that a terminal can show.
type glyphs struct {
	ascii       bool
	open, shut  string // around a named key
	off         string // a legend that is left off
	caret       string // where the next symbol will stand
	arrow, more string
}

func glyphsFor(ascii bool) glyphs {
	if ascii {
		return glyphs{ascii: true, open: "<", shut: ">", off: ".", caret: "_", arrow: "->", more: "..."}
	}
	return glyphs{open: "‹", shut: "›", off: "·", caret: "▁", arrow: "→", more: "…"}
}

// text returns what to draw for a cell of a prompt, without the marks around
// a named one.
func (g *glyphs) text(c *session.Cell) string {
	if !g.ascii || !c.Blank {
		return c.Text
	}
	switch c.Text {
	case "⇥":
		return "Tab"
	case "⏎":
		return "Enter"
	}
	return "Space"
}

// named tells whether a cell is set apart by marks.
func (g *glyphs) named(c *session.Cell) bool { return c.Named || g.ascii && c.Blank }

// state returns the sign of a state.
func (g *glyphs) state(s scheduler.State) string {
	if !g.ascii {
		return session.StateSign(s)
	}
	switch s {
	case scheduler.Building:
		return "o"
	case scheduler.Steady:
		return "@"
	case scheduler.Fading:
		return "?"
	}
	return "."
}
