package session

import (
	"strings"

	"underlay/drills/board"
)

// heard says which symbols, one or two, a key stands for while asked is asked for. A
// terminal without an extended key protocol sends the same control code for
// some keys and chords, and Escape followed at once by a key is sent like Alt
// with that key; what is asked for settles it.
func heard(got, asked board.Symbol) (first, then board.Symbol) {
	if twin, ok := controlTwin(got); ok && twin == asked {
		return twin, ""
	}
	if rest, ok := strings.CutPrefix(string(got), "Alt+"); ok && asked == board.Escape {
		return board.Escape, board.Symbol(rest)
	}
	return got, ""
}

// controlTwin returns the chord that ASCII gives the same code as a key.
func controlTwin(s board.Symbol) (board.Symbol, bool) {
	switch s {
	case board.Tab:
		return "Control+i", true
	case board.Enter:
		return "Control+m", true
	case board.Escape:
		return "Control+[", true
	case board.Backspace:
		return "Control+h", true
	}
	return "", false
}
