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
	Most  float64 // it was looked at more closely only where this is enough
}

// Swaps returns every swap that New looks at, the cost of the board as it is, and
// what a stroke takes by itself: the settled time by effort and key, and by id the
// one that it has now.
func Swaps(in Input) (swaps []Swap, whole float64, settled func(effort float64, p board.Position) float64, own func(id int) float64) {
	t, _ := newWork(in).exchange()
	if t == nil {
		return nil, 0, nil, nil
	}
	for i, a := range t.slots {
		for _, b := range t.slots[i+1:] {
			ids := affected(a, b)
			swaps = append(swaps, Swap{Slot{a.layer, a.position}, Slot{b.layer, b.position}, t.saves(ids, a, b), t.most(ids, a, b)})
		}
	}
	return swaps, t.whole, t.m.settled, func(id int) float64 { return t.own[id] }
}

// Expected returns what each stroke is expected to take, in ms.
func Expected(in Input) func(id int) float64 {
	w := newWork(in)
	return func(id int) float64 { return w.expect(id).total() }
}
