package session

import "underlay/drills/board"

// command is something that a key does during a drill although it may itself
// be asked for.
type command int8

const (
	none command = iota
	pausing
	leaving
	stopping // job control
	missing  // the key that is asked for never arrives
)

// chord is the key of a command, and the one that stands in for it while the
// first is what the drill asks for.
type chord struct {
	does   command
	first  board.Symbol
	second board.Symbol
}

func chords() [4]chord {
	return [4]chord{
		{pausing, "Escape", "Control+p"},
		{leaving, "Control+c", "Control+q"},
		{stopping, "Control+z", "Control+y"},
		{missing, "Control+n", "Control+t"},
	}
}

// keyFor returns the key of a command while asked is asked for.
func keyFor(c command, asked board.Symbol) board.Symbol {
	for _, ch := range chords() {
		if ch.does == c {
			if twin, ok := controlTwin(ch.first); asked == ch.first || ok && asked == twin {
				return ch.second
			}
			return ch.first
		}
	}
	return ""
}

// commandOf returns the command that a key means while asked is asked for.
func commandOf(k, asked board.Symbol) command {
	if twin, ok := controlTwin(k); ok && twin == asked {
		return none // it is the answer
	}
	for _, ch := range chords() {
		if k == keyFor(ch.does, asked) {
			return ch.does
		}
	}
	return none
}
