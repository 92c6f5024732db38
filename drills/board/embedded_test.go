package board_test

import (
	"fmt"
	"testing"

	"underlay/drills/board"
)

// programming is what a board needs for typing code in a terminal.
func programming() []board.Symbol {
	var all []board.Symbol
	for r := ' '; r <= '~'; r++ {
		all = append(all, board.SymbolOf(r))
	}
	all = append(all, board.Escape, board.Tab, board.Enter, board.Backspace, board.Delete,
		board.ArrowLeft, board.ArrowDown, board.ArrowUp, board.ArrowRight, board.Home, board.End, board.PageUp, board.PageDown)
	for i := 1; i <= 12; i++ {
		all = append(all, board.Symbol(fmt.Sprintf("F%d", i)))
	}
	for r := 'a'; r <= 'z'; r++ {
		all = append(all, board.ChordOf(board.Symbol(r), board.Control), board.ChordOf(board.Symbol(r), board.Alt))
	}
	return append(all, "Shift+Tab", "Shift+ArrowLeft", "Control+Space")
}

func TestEmbeddedBoardsAreCompleteForProgramming(t *testing.T) {
	for _, name := range board.Embedded() {
		b, err := board.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		if b.Name != name {
			t.Errorf("%s.toml is named %q", name, b.Name)
		}
		for _, s := range programming() {
			if _, ok := b.Drilled(s); !ok {
				t.Errorf("%s cannot produce %s", name, s)
			}
		}
	}
}

// place is where a finger goes, on boards of any shape.
type place struct {
	layer  string
	finger string
	reach  int
	row    board.Row
}

// TestNoTwoBoardsAreAlikeByAccident compares what is under the same finger on
// layers of the same name. Letters are where all boards have them; the fn layers
// of the two standard boards, alike on purpose, have no characters.
func TestNoTwoBoardsAreAlikeByAccident(t *testing.T) {
	names := board.Embedded()
	for i, name := range names {
		for _, other := range names[:i] {
			a, b := layered(t, name), layered(t, other)
			same, both := 0, 0
			for at, s := range a {
				if o, ok := b[at]; ok {
					both++
					if s == o {
						same++
					}
				}
			}
			t.Logf("%s and %s: %d of %d", name, other, same, both)
			if both >= 20 && same*2 > both {
				t.Errorf("%s and %s have %d of %d keys the same", name, other, same, both)
			}
		}
	}
}

// layered lists what the layers above the first give, arrows and function keys
// aside, whose order is that of the standard.
func layered(t *testing.T, name string) map[place]board.Symbol {
	b := standard(t, name, "us")
	out := map[place]board.Symbol{}
	for _, layer := range b.Layers()[1:] {
		for _, k := range b.Keys() {
			s, ok := b.Gives(layer, k.Position)
			if ok && s.IsCharacter() && !b.Legend(layer, k.Position).Through {
				out[place{layer, k.Hand.String() + k.Finger.String(), k.Reach, k.Row}] = s
			}
		}
	}
	return out
}
