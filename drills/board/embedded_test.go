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
