package drills

import (
	"slices"
	"strings"
	"testing"

	"underlay/drills/board"
)

// plank is an invented board in one piece, with AltGraph, a latch and a lock.
const plank = `
name      = "plank"
title     = "Invented, one piece"
os-layout = "de"
[shape]
kind   = "ortholinear"
thumbs = 1
[[layer]]
name = "base"
keys = '''
  q w e r t || z u i o p
  a s d f g || h j k l ö
  y x c v b || n m , . -
  Control Shift signs:latch Space AltGraph || Enter arrows:lock Backspace Shift Escape
'''
[[layer]]
name = "signs"
keys = '''
  1 2 3 4 5 || 6 7 8 9 0
  ! " < > / || = ( ) + *
  ^ # $ % & || ' [ ] _ ?
  .. .. .. .. .. || .. .. .. .. ..
'''
[[layer]]
name = "arrows"
keys = '''
  .. .. .. .. .. || Home PageDown PageUp End ..
  .. .. .. .. .. || ArrowLeft ArrowDown ArrowUp ArrowRight ..
  .. .. .. .. .. || .. .. .. .. ..
  .. .. .. .. .. || .. .. .. .. ..
'''
`

func slipBoards(t testing.TB) map[string]*board.Board {
	t.Helper()
	b, found := board.Read("plank.toml", []byte(plank))
	if err := found.Err(); err != nil {
		t.Fatal(err)
	}
	return map[string]*board.Board{"plank": b, "split": load(t, "split-38"), "ansi": load(t, "ansi-61")}
}

// The kinds follow from the boards' pictures; expected values were read off
// them by hand.
func TestDiagnose(t *testing.T) {
	tests := []struct {
		on, other         string
		prev, asked, next board.Symbol
		got               board.Symbol
		kind              SlipKind
		hold              Hold
	}{
		// The split board: marks under the left thumb, cursor and digits under the right one.
		{"split", "ansi", "", "(", "", "k", LayerSlip, HoldMissed},
		{"split", "ansi", "f", "(", ")", "k", LayerSlip, HoldMissed},
		{"split", "ansi", "", "{", "", "i", LayerSlip, HoldMissed},
		{"split", "ansi", "", "=", "", "j", LayerSlip, HoldMissed},
		{"split", "ansi", "", "~", "", "q", LayerSlip, HoldMissed},
		{"split", "ansi", "", "5", "", "t", LayerSlip, HoldMissed},
		{"split", "ansi", "", "ArrowDown", "", "d", LayerSlip, HoldMissed},
		{"split", "ansi", "(", ")", "", "l", LayerSlip, HoldMissed},
		{"split", "ansi", "j", "=", "", "j", LayerSlip, HoldMissed}, // a repetition too, but the position says more
		{"split", "ansi", "", "=", "j", "j", LayerSlip, HoldMissed}, // a transposition too
		{"split", "ansi", "", "=", "", "Space", LayerSlip, HoldTapped},
		{"split", "ansi", "a", "0", "", "Tab", LayerSlip, HoldTapped},
		{"split", "ansi", "a", "ArrowLeft", "", "Backspace", LayerSlip, HoldTapped},
		{"split", "ansi", "(", "j", "", "=", LayerSlip, HoldLate},
		{"split", "ansi", ")", "k", "", "(", LayerSlip, HoldLate},
		{"split", "ansi", "1", "g", "", "0", LayerSlip, HoldLate},
		{"split", "ansi", "a", "j", "(", "=", LayerSlip, HoldEarly},
		{"split", "ansi", "", "f", "0", "1", LayerSlip, HoldEarly},
		{"split", "ansi", "a", "f", "e", "1", LayerSlip, HoldWrong},
		{"split", "ansi", "", "1", "", ":", LayerSlip, HoldWrong},
		{"split", "ansi", "(", "1", "", ":", LayerSlip, HoldLate},
		{"split", "ansi", "", "F5", "", "5", LayerSlip, HoldWrong},
		{"split", "ansi", "", "(", "", "=", ColumnSlip, NoHold},
		{"split", "ansi", "", "(", "", ")", ColumnSlip, NoHold},
		{"split", "ansi", "", ")", "", "\"", ColumnSlip, NoHold},
		{"split", "ansi", "", "k", "", "j", ColumnSlip, NoHold},
		{"split", "ansi", "", "Enter", "", "Backspace", ColumnSlip, NoHold},
		{"split", "ansi", "", "(", "", "{", RowSlip, NoHold},
		{"split", "ansi", "", "(", "", "[", RowSlip, NoHold},
		{"split", "ansi", "", "f", "", "r", RowSlip, NoHold},
		{"split", "ansi", "", "f", "", "v", RowSlip, NoHold},
		{"split", "ansi", "", "(", "", "'", MirrorSlip, NoHold},
		{"split", "ansi", "", "d", "", "k", MirrorSlip, NoHold},
		{"split", "ansi", "", "t", "", "y", MirrorSlip, NoHold},
		{"split", "ansi", "", "Escape", "", "Enter", MirrorSlip, NoHold},
		{"split", "ansi", "", "e", "r", "r", Transposition, NoHold}, // beside it too, but it comes next
		{"split", "ansi", "", "a", "p", "p", Transposition, NoHold},
		{"split", "ansi", "", "(", ")", ")", Transposition, NoHold},
		{"split", "ansi", "m", "a", "", "m", RepeatSlip, NoHold},
		{"split", "ansi", "r", "f", "", "r", RepeatSlip, NoHold}, // a row off too
		{"split", "ansi", "", "A", "", "a", ShiftSlip, HoldMissed},
		{"split", "ansi", "S", "a", "", "A", ShiftSlip, HoldLate},
		{"split", "ansi", "", "a", "S", "A", ShiftSlip, HoldEarly},
		{"split", "ansi", "d", "a", "s", "A", ShiftSlip, HoldWrong},
		{"split", "ansi", "", "Control+w", "", "w", ShiftSlip, HoldMissed},
		{"split", "ansi", "", "Control+w", "", "Alt+w", ShiftSlip, HoldWrong},
		{"split", "ansi", "", ":", "", ";", RowSlip, NoHold}, // marks has both; it is where the other board has it, too
		{"split", "ansi", "", "<", "", ",", ShiftSlip, HoldMissed},
		{"split", "ansi", "", "?", "", "/", HabitSlip, NoHold}, // without the Shift that it needs there
		{"split", "ansi", "", "a", "", "m", OtherSlip, NoHold},
		{"split", "ansi", "", "a", "", "ä", OtherSlip, NoHold},
		{"split", "ansi", "", "a", "", "", OtherSlip, NoHold},
		// The standard board, for hands that know the split one.
		{"ansi", "split", "", "(", "", "9", ShiftSlip, HoldMissed},
		{"ansi", "split", "A", "9", "", "(", ShiftSlip, HoldLate},
		{"ansi", "split", "", "{", "", "[", ShiftSlip, HoldMissed},
		{"ansi", "split", "", "(", "", ")", ColumnSlip, NoHold},
		{"ansi", "split", "", "g", "", "h", ColumnSlip, NoHold}, // in one piece a finger can miss over the middle
		{"ansi", "split", "", "9", "", "o", RowSlip, NoHold},
		{"ansi", "split", "", "f", "", "j", MirrorSlip, NoHold},
		{"ansi", "split", "", "(", "", "k", HabitSlip, NoHold},
		{"ansi", "split", "", "=", "", "j", HabitSlip, NoHold},
		{"ansi", "split", "", "{", "", "i", HabitSlip, NoHold},
		{"ansi", "split", "", "0", "", "g", HabitSlip, NoHold},
		{"ansi", "split", "", "Backspace", "", "Space", HabitSlip, NoHold},
		{"ansi", "split", "", "Escape", "", "Space", HabitSlip, NoHold},
		{"ansi", "split", "", "(", "", "Space", HabitSlip, NoHold}, // the thumb that holds a layer there
		{"ansi", "split", "", "ArrowLeft", "", "s", HabitSlip, NoHold},
		{"ansi", "", "", "(", "", "k", OtherSlip, NoHold}, // nobody's habit
		{"ansi", "split", "", "ArrowLeft", "", "h", LayerSlip, HoldMissed},
		{"ansi", "split", "ArrowLeft", "h", "", "ArrowLeft", LayerSlip, HoldLate},
		{"ansi", "split", "", "n", "e", "e", Transposition, NoHold},
		{"ansi", "split", "z", "p", "", "z", RepeatSlip, NoHold},
		// One piece with a latch, a lock and AltGraph.
		{"plank", "ansi", "", "(", "", "j", LayerSlip, HoldMissed},
		{"plank", "ansi", "", "7", "", "u", LayerSlip, HoldMissed},
		{"plank", "ansi", "(", "k", "", ")", LayerSlip, HoldLate},
		{"plank", "ansi", "", "ArrowDown", "", "j", LayerSlip, HoldMissed},
		{"plank", "ansi", "", "ArrowDown", "", "(", LayerSlip, HoldWrong},
		{"plank", "ansi", "", "(", "", ")", ColumnSlip, NoHold},
		{"plank", "ansi", "", "(", "", "7", RowSlip, NoHold},
		{"plank", "ansi", "", "(", "", ">", MirrorSlip, NoHold},
		{"plank", "ansi", "", "@", "", "q", ShiftSlip, HoldMissed},
		{"plank", "ansi", "@", "e", "", "€", ShiftSlip, HoldLate},
		{"plank", "ansi", "", "z", "", "y", HabitSlip, NoHold},
		{"plank", "ansi", "", "y", "", "z", HabitSlip, NoHold},
		{"plank", "ansi", "", "a", "", "s", ColumnSlip, NoHold},
	}
	if len(tests) < 60 {
		t.Errorf("%d cases, want at least 60", len(tests))
	}
	boards := slipBoards(t)
	for _, c := range tests {
		w := where(t, boards[c.on], boards[c.other], c.prev, c.asked, c.next, c.got)
		s := Diagnose(w)
		if s.Kind != c.kind || s.Hold != c.hold {
			t.Errorf("%s: %q for %q between %q and %q: %s, hold %d, want %s, hold %d", c.on, c.got, c.asked, c.prev, c.next, s.Kind, s.Hold, c.kind, c.hold)
		}
		if words := s.Words(); words == "" || strings.Contains(words, "\n") || len([]rune(words)) > 78 {
			t.Errorf("%s for %s: %q is no short line", c.got, c.asked, words)
		}
	}
}

func where(t testing.TB, b, other *board.Board, prev, asked, next, got board.Symbol) Where {
	t.Helper()
	ask := func(s board.Symbol) Ask {
		if s == "" {
			return Ask{}
		}
		stroke, ok := b.Drilled(s)
		if !ok {
			t.Fatalf("%s has no %s", b.Name, s)
		}
		return Ask{Symbol: s, Stroke: stroke}
	}
	return Where{Board: b, Other: other, Prev: ask(prev), Asked: ask(asked), Next: ask(next), Got: got}
}

func TestSlipWords(t *testing.T) {
	tests := []struct {
		on, other         string
		prev, asked, next board.Symbol
		got               board.Symbol
		want              string
	}{
		{"split", "", "", "(", "", "k", "layer slip: that was the same place on the base layer, so the hold came late"},
		{"split", "", "(", "j", "", "=", "layer slip: that was the same place on the marks layer, let go late"},
		{"split", "", "a", "j", "(", "=", "layer slip: that was the same place on the marks layer, held early"},
		{"split", "", "a", "f", "e", "1", "layer slip: that was the same place on the digits layer, which was on"},
		{"split", "", "", "=", "", "Space", "layer slip: the hold was let go so soon that it was a tap"},
		{"plank", "", "", "(", "", "j", "layer slip: that was the same place on the base layer, so its layer was not on"},
		{"split", "", "", "(", "", ")", "column slip: ) is one to the right of ("},
		{"split", "", "", "(", "", "{", "row slip: { is one above ("},
		{"split", "", "", "(", "", "'", "mirror slip: ' is the same place under the other hand"},
		{"ansi", "split", "", "(", "", "k", "habit slip: that is where split-38 has ("},
		{"split", "", "", "e", "r", "r", "transposition: r comes after e"},
		{"split", "", "m", "a", "", "m", "repeat: m came once more"},
		{"split", "", "", "A", "", "a", "Shift slip: Shift came late"},
		{"split", "", "S", "a", "", "A", "Shift slip: Shift was let go late"},
		{"plank", "", "", "@", "", "q", "AltGr slip: AltGr came late"},
		{"split", "", "", "Control+w", "", "w", "Ctrl slip: Ctrl came late"},
		{"split", "", "", "a", "", "m", "that was m, not a"},
	}
	boards := slipBoards(t)
	for _, c := range tests {
		w := where(t, boards[c.on], boards[c.other], c.prev, c.asked, c.next, c.got)
		if got := Diagnose(w).Words(); got != c.want {
			t.Errorf("%s for %s: %q, want %q", c.got, c.asked, got, c.want)
		}
	}
	if got := (Slip{}).Words(); got != "" {
		t.Errorf("a right stroke: %q, want nothing", got)
	}
}

func TestSlipKinds(t *testing.T) {
	seen := map[SlipKind]bool{}
	for _, k := range SlipKinds() {
		seen[k] = true
	}
	if len(seen) != 9 || slices.Contains(SlipKinds(), "") {
		t.Errorf("kinds are %v", SlipKinds())
	}
}

func BenchmarkDiagnose(b *testing.B) {
	boards := slipBoards(b)
	w := where(b, boards["split"], boards["ansi"], "f", "(", ")", "k")
	for b.Loop() {
		Diagnose(w)
	}
}
