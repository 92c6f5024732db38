package standing

import "underlay/drills/board"

// Slot names a position of a layer, for tests.
type Slot struct {
	Layer    string
	Position board.Position
}

// Swap is a swap that was looked at, with what it saves.
type Swap struct {
	A, B  Slot
	Saves float64
}

// Swaps returns every swap that New looks at, the cost of the board as it is,
// and the settled time of a stroke.
func Swaps(in Input) ([]Swap, float64, func(effort float64, p board.Position) float64) {
	w := newWork(in)
	m, _ := w.fitEffort()
	if m == nil {
		return nil, 0, nil
	}
	t := w.exchange(m)
	var out []Swap
	for i, a := range t.slots {
		for j := i + 1; j < len(t.slots); j++ {
			b := t.slots[j]
			out = append(out, Swap{Slot{a.layer, a.position}, Slot{b.layer, b.position}, t.saves(i, j)})
		}
	}
	return out, t.whole, m.settled
}

// Expected returns what each stroke is expected to take, in ms.
func Expected(in Input) func(id int) float64 {
	w := newWork(in)
	return func(id int) float64 { return w.expect(id).total() }
}
