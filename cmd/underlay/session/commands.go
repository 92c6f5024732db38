package session

import (
	"strings"

	"underlay/drills"
	"underlay/drills/board"
)

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

// way is how a command is given: by the first key, by the second while the
// first would be an answer or is a likely slip, and else from the pause.
type way struct {
	does          command
	first, second board.Symbol
	paused        board.Symbol // the key for it in a pause; "" for none
}

func ways() [4]way {
	return [4]way{
		{pausing, board.Escape, "Control+p", ""},
		{leaving, "Control+c", "Control+q", "q"},
		{stopping, "Control+z", "Control+y", ""},
		{missing, "Control+n", "Control+t", "n"},
	}
}

// commandOf returns the command that a key means during a drill on a board, or
// none: then it is an answer.
func commandOf(k board.Symbol, a drills.Ask, b *board.Board) command {
	for _, w := range ways() {
		if (k == w.first || k == w.second) && w.key(a, b) == k {
			return w.does
		}
	}
	return none
}

// keyFor says how a command is given now, for the bottom line.
func keyFor(c command, a drills.Ask, b *board.Board) string {
	for _, w := range ways() {
		if w.does != c {
			continue
		}
		if k := w.key(a, b); k != "" || w.paused == "" {
			return string(k)
		}
		return keyFor(pausing, a, b) + " " + string(w.paused)
	}
	return ""
}

// key returns the key that gives the command while a is asked for, or "".
func (w way) key(a drills.Ask, b *board.Board) board.Symbol {
	for _, k := range [...]board.Symbol{w.first, w.second} {
		if !answers(k, a) && !likelySlip(k, a, b) {
			return k
		}
	}
	return ""
}

// answers tells whether a key is what is asked for, or sent with the same code.
func answers(k board.Symbol, a drills.Ask) bool {
	twin, _ := controlTwin(k)
	return k == a.Arrives() || twin == a.Arrives()
}

// likelySlip tells whether a chord may well come by mistake: while another
// Control chord is asked for, or while its key is the one to press and only the
// hold is another.
func likelySlip(k board.Symbol, a drills.Ask, b *board.Board) bool {
	key, ok := strings.CutPrefix(string(k), "Control+")
	if !ok {
		return false
	}
	if mods, _, chord := a.Arrives().Chord(); chord && mods[0] == board.Control {
		return !answers(board.Escape, a) // then Escape pauses, and all else goes from there
	}
	at, ok := b.Gives(b.Base(), a.Stroke.Final().Position)
	return ok && at == board.Symbol(key) && a.Arrives() != board.Escape
}
