package screen

import (
	"fmt"
	"time"

	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// keys translates the terminal's keys into symbols.
type keys struct {
	read *reading // how bytes last came from the terminal; nil: not known
}

// named are the keys that have a name of their own, by the W3C UI Events
// specification.
func named(k tcell.Key) (board.Symbol, bool) {
	switch k {
	case tcell.KeyEnter:
		return board.Enter, true
	case tcell.KeyTab:
		return board.Tab, true
	case tcell.KeyEscape:
		return board.Escape, true
	case tcell.KeyBackspace, tcell.KeyBackspace2:
		return board.Backspace, true
	case tcell.KeyDelete:
		return board.Delete, true
	case tcell.KeyInsert:
		return board.Insert, true
	case tcell.KeyHome:
		return board.Home, true
	case tcell.KeyEnd:
		return board.End, true
	case tcell.KeyPgUp:
		return board.PageUp, true
	case tcell.KeyPgDn:
		return board.PageDown, true
	case tcell.KeyLeft:
		return board.ArrowLeft, true
	case tcell.KeyDown:
		return board.ArrowDown, true
	case tcell.KeyUp:
		return board.ArrowUp, true
	case tcell.KeyRight:
		return board.ArrowRight, true
	case tcell.KeyPrint:
		return "PrintScreen", true
	case tcell.KeyPause:
		return "Pause", true
	case tcell.KeyMenu:
		return "ContextMenu", true
	case tcell.KeyHelp:
		return "Help", true
	case tcell.KeyClear:
		return "Clear", true
	case tcell.KeyCapsLock:
		return "CapsLock", true
	case tcell.KeyScrollLock:
		return "ScrollLock", true
	case tcell.KeyNumLock:
		return "NumLock", true
	}
	if k >= tcell.KeyF1 && k <= tcell.KeyF64 {
		return board.Symbol(fmt.Sprintf("F%d", k-tcell.KeyF1+1)), true
	}
	return "", false
}

// controls are the keys that a control code stands for besides the letters.
func control(k tcell.Key) (board.Symbol, bool) {
	switch {
	case k == tcell.KeyCtrlSpace:
		return board.Space, true
	case k >= tcell.KeyCtrlA && k <= tcell.KeyCtrlZ:
		return board.Symbol(rune('a' + k - tcell.KeyCtrlA)), true
	case k >= tcell.KeyCtrlLeftSq && k <= tcell.KeyCtrlUnderscore:
		return board.Symbol(`[\]^_`[k-tcell.KeyCtrlLeftSq : k-tcell.KeyCtrlLeftSq+1]), true
	}
	return "", false
}

// symbol returns what a key event stands for, or "" for nothing of ours.
func symbol(ev *tcell.EventKey) board.Symbol {
	mods := ev.Modifiers()
	if ev.Key() == tcell.KeyBacktab {
		return chordOf(board.Tab, mods|tcell.ModShift)
	}
	if s, ok := named(ev.Key()); ok {
		return chordOf(s, mods)
	}
	if s, ok := control(ev.Key()); ok {
		return chordOf(s, mods|tcell.ModCtrl)
	}
	if ev.Key() != tcell.KeyRune || ev.Rune() < ' ' {
		return ""
	}
	s := board.SymbolOf(ev.Rune())
	if s.IsCharacter() {
		mods &^= tcell.ModShift // the character says it
	}
	return chordOf(s, mods)
}

func chordOf(s board.Symbol, mods tcell.ModMask) board.Symbol {
	if mods == tcell.ModNone {
		return s
	}
	var with [4]board.Symbol
	n := 0
	for _, m := range [...]struct {
		bit  tcell.ModMask
		name board.Symbol
	}{{tcell.ModCtrl, board.Control}, {tcell.ModAlt, board.Alt}, {tcell.ModShift, board.Shift}, {tcell.ModMeta, board.Meta}} {
		if mods&m.bit != 0 {
			with[n] = m.name
			n++
		}
	}
	return board.ChordOf(s, with[:n]...)
}

// longestHeld is how long an Escape can have been held back, by us and by
// tcell, to see whether more follows.
const longestHeld = 250 * time.Millisecond

// key returns the event of a key, or false for nothing of ours. An Escape gets
// the time at which its byte came, since it is held back; where that is not
// known, its time is called vague, and so are those of keys that came at once.
func (k keys) key(ev *tcell.EventKey) (session.Key, bool) {
	s := symbol(ev)
	if s == "" {
		return session.Key{}, false
	}
	out := session.Key{Symbol: s, At: ev.When(), Vague: k.read.together()}
	switch {
	case s != board.Escape:
	case k.read == nil:
		out.Vague = true
	default:
		if held := time.Duration(ev.When().UnixNano() - k.read.at.Load()); held > 0 && held <= longestHeld {
			out.At = out.At.Add(-held)
		}
	}
	return out, true
}
