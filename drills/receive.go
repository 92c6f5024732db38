package drills

import (
	"slices"
	"strings"
	"unicode"

	"underlay/drills/board"
)

// Received reports whether a plain terminal passes a symbol on to a program,
// as something that no other key sends. What it leaves out:
//
//   - modifiers alone, and every chord with Meta: nothing is sent;
//   - Control with i, m, [, h, j and ?, which send what Tab, Enter, Escape,
//     Backspace and Enter send (ASCII: a control character is the letter's
//     code and 0x1F; ? is DEL by custom), and Control with any other mark or
//     digit than @ \ ] ^ _, which send nothing or another one's code;
//   - Control with a capital, which sends what it sends with the small letter;
//   - Alt with [ and O, which begin the sequences of other keys (ECMA-48 CSI
//     and SS3), and Alt with a key that itself begins with Escape or is Tab;
//   - Shift, Control and Alt with Enter, Space, Escape and Backspace, which
//     terminals send plain (Shift+Tab is CSI Z and arrives);
//   - Shift with PageUp, PageDown and Insert, which terminals keep for
//     scrolling and pasting (common practice);
//   - F-keys above F12 and keys of media, power and the desktop.
func Received(s board.Symbol) bool {
	mods, key, ok := s.Chord()
	if !ok {
		return printable(s) || s == board.Space || editing(s) || navigating(s)
	}
	has := func(m board.Symbol) bool { return slices.Contains(mods, m) }
	switch {
	case has(board.Meta) || has(board.AltGraph):
		return false
	case navigating(key):
		alone := len(mods) == 1 && has(board.Shift)
		return !alone || key != board.PageUp && key != board.PageDown && key != board.Insert
	case key == board.Tab:
		return len(mods) == 1 && has(board.Shift)
	case has(board.Shift):
		return false
	case has(board.Control):
		return controls(key)
	default:
		return printable(key) && key != "[" && key != "O" && len(key) == 1
	}
}

// printable reports whether s is one character that adds itself to a text.
func printable(s board.Symbol) bool {
	r, ok := s.Rune()
	return ok && s.IsCharacter() && unicode.IsGraphic(r) && !unicode.IsSpace(r) && !unicode.Is(unicode.M, r)
}

func editing(s board.Symbol) bool {
	return s == board.Enter || s == board.Tab || s == board.Escape || s == board.Backspace
}

// navigating reports whether s is one of the keys for which terminals send a
// sequence of their own, in which modifiers have a place (xterm, ctlseqs).
func navigating(s board.Symbol) bool {
	switch s {
	case board.ArrowLeft, board.ArrowRight, board.ArrowUp, board.ArrowDown, board.Home, board.End,
		board.PageUp, board.PageDown, board.Insert, board.Delete:
		return true
	}
	return functionKey(s)
}

func functionKey(s board.Symbol) bool {
	switch s {
	case "F1", "F2", "F3", "F4", "F5", "F6", "F7", "F8", "F9", "F10", "F11", "F12":
		return true
	}
	return false
}

// controls reports whether Control with the key has a control character that
// no other key sends.
func controls(key board.Symbol) bool {
	if len(key) != 1 {
		return false
	}
	c := key[0]
	return 'a' <= c && c <= 'z' && !strings.ContainsRune("himj", rune(c)) || strings.IndexByte(`@\]^_`, c) >= 0
}
