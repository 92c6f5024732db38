package session

import (
	"fmt"

	"underlay/drills/board"
)

// taking waits until the other board is under the hands.
type taking struct{ task Task }

func (t *taking) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter:
		m.sitting.rested = m.sitting.used
		m.sitting.part = tally{}
		m.sitting.switched = true
		m.start(t.task)
	case board.Escape:
		m.endSitting("")
	case "Control+c":
		m.leave()
	}
}

func (t *taking) show(m *Model, v *View) {
	b := m.boardAt(t.task.Board)
	v.Title = string(t.task.Block)
	v.Aside = b.Name
	lines := []string{fmt.Sprintf("Now take %s.", theBoard(m, t.task.Board)), "", board.Safe(b.Title), ""}
	lines = append(lines, "The clock stands still until you press Enter on it.")
	v.Page = &PageView{Lines: lines}
	v.Keys = append(v.Keys, Hint{"Enter", "go on, typed on that board"}, Hint{"Escape", "end here"}, Hint{"Control+c", "leave"})
}

// theBoard names a board for a sentence.
func theBoard(m *Model, i int) string {
	b := m.boardAt(i)
	if b.Kind == board.RowStaggered {
		return "the standard board, " + board.Safe(b.Name)
	}
	return board.Safe(b.Name)
}
