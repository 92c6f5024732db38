package session

import (
	"underlay/drills"
	"underlay/drills/board"
)

// Signs for white space, as ISO/IEC 9995-7 draws the space and as is usual for
// the others.
const (
	spaceSign = "␣"
	tabSign   = "⇥"
	enterSign = "⏎"
)

// cellsOf returns the prompt of a drill as it is drawn.
func cellsOf(d drills.Drill) []Cell {
	out := make([]Cell, len(d.Prompt))
	for i, c := range d.Prompt {
		out[i] = Cell{Text: safe(c.Text), Named: c.Named, Gap: c.Gap && i > 0, Break: c.Break && i > 0}
		if sign, ok := blankSign(d.Keys[i].Symbol); ok {
			out[i].Text, out[i].Named, out[i].Blank = sign, false, true
		}
	}
	return out
}

// typedCell returns a symbol that was typed as it is drawn.
func typedCell(t drills.Typed) Cell {
	if sign, ok := blankSign(t.Symbol); ok {
		return Cell{Text: sign, Wrong: t.Wrong, Blank: true}
	}
	return Cell{Text: safe(drills.KeyName(t.Symbol)), Named: !t.Symbol.IsCharacter(), Wrong: t.Wrong}
}

// safe is board.Safe, at no cost for the one ASCII character that most keys give.
func safe(s string) string {
	if len(s) == 1 && s[0] > ' ' && s[0] < 0x7f {
		return s
	}
	return board.Safe(s)
}

func blankSign(s board.Symbol) (string, bool) {
	switch s {
	case board.Space:
		return spaceSign, true
	case board.Tab:
		return tabSign, true
	case board.Enter:
		return enterSign, true
	}
	return "", false
}
