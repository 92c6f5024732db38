package drills

import (
	"testing"

	"underlay/drills/board"
)

// What a plain terminal passes on. Control characters: ASCII, where Control
// takes the upper bits away, so that i, m, j, h and [ are Tab, Enter, line
// feed, Backspace and Escape. Keys with sequences of their own and their
// modifiers: xterm, ctlseqs (patch 379).
func TestReceived(t *testing.T) {
	yes := []board.Symbol{
		"a", "A", "(", "~", "é", "ß", "€", "Space", "Enter", "Tab", "Escape", "Backspace",
		"ArrowLeft", "Home", "PageUp", "Delete", "Insert", "F1", "F12",
		"Control+w", "Control+a", "Control+]", `Control+\`, "Control+_", "Control+^", "Control+@",
		"Alt+x", "Alt+.", "Alt+X", "Shift+Tab", "Shift+F5", "Control+ArrowLeft", "Alt+F4", "Shift+ArrowUp", "Control+PageUp", "Control+Shift+F1",
	}
	no := []board.Symbol{
		"", "Control", "Alt", "Shift", "Meta", "AltGraph", "CapsLock", "Meta+a", "Meta+ArrowLeft", "Control+Meta+x",
		"Control+i", "Control+m", "Control+[", "Control+h", "Control+j", "Control+?", "Control+A", "Control+1", "Control+,", "Control+/",
		"Control+Enter", "Control+Space", "Shift+Space", "Shift+Enter", "Control+Tab", "Alt+Tab", "Shift+Escape", "Control+Backspace",
		"Alt+[", "Alt+O", "Shift+PageUp", "Shift+PageDown", "Shift+Insert",
		"F13", "AudioVolumeUp", "MediaPlayPause", "BrightnessUp", "PrintScreen", "ContextMenu", "<pair-1>", "<forget>",
		"\x01", "\n", "\u200b", "\u202e", "\u0301", "ab",
	}
	for _, s := range yes {
		if !Received(s) {
			t.Errorf("%q is received", s)
		}
	}
	for _, s := range no {
		if Received(s) {
			t.Errorf("%q is not received, or not told from another", s)
		}
	}
}

// Control with a letter sends the letter's code with the two upper bits taken
// away (ASCII). No two symbols that are received may send the same byte.
func TestControlCharactersAreTold(t *testing.T) {
	sent := map[byte]board.Symbol{'\t': board.Tab, '\r': board.Enter, 0x1b: board.Escape, 0x7f: board.Backspace, '\n': "line feed", '\b': "BS"}
	for c := byte('!'); c < 0x7f; c++ {
		s := board.ChordOf(board.Symbol(c), board.Control)
		if !Received(s) {
			continue
		}
		code := c & 0x1f
		if other, ok := sent[code]; ok {
			t.Errorf("%s sends what %s sends", s, other)
		}
		sent[code] = s
	}
	if len(sent) < 26 {
		t.Errorf("%d control characters are used, want most of 32", len(sent))
	}
}
