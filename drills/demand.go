package drills

import (
	"math/rand/v2"

	"underlay/drills/board"
)

// demand is how often each symbol that is wanted has still to come in a drill.
// A drill is put together of pieces that take from it; what is wanted and
// used up may not come again, so that the shares stay as they were planned.
type demand struct {
	left  map[board.Symbol]int
	total int
	order []board.Symbol // all that is wanted, in a chance order that keeps equal ones apart
}

func newDemand(plan []want, n int, rng *rand.Rand) *demand {
	d := &demand{left: map[board.Symbol]int{}}
	for _, w := range plan {
		d.left[w.symbol] = 0
	}
	d.order = keepApart(apportion(plan, n, rng), rng)
	for _, s := range d.order {
		d.left[s]++
	}
	d.total = len(d.order)
	return d
}

// next returns the next symbol that has still to come; false at the end.
func (d *demand) next() (board.Symbol, bool) {
	for len(d.order) > 0 {
		if s := d.order[0]; d.left[s] > 0 {
			return s, true
		}
		d.order = d.order[1:]
	}
	return "", false
}

// wants tells whether s is among what is wanted, used up or not.
func (d *demand) wants(s board.Symbol) bool {
	_, ok := d.left[s]
	return ok
}

// may tells whether a piece brings nothing that is used up.
func (d *demand) may(piece []board.Symbol) bool {
	for i, s := range piece {
		n := 1
		for _, before := range piece[:i] {
			if before == s {
				n++
			}
		}
		if d.wants(s) && d.left[s] < n {
			return false
		}
	}
	return true
}

func (d *demand) take(piece []board.Symbol) {
	for _, s := range piece {
		if d.left[s] > 0 {
			d.left[s]--
			d.total--
		}
	}
}
