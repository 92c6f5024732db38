package learners

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// onLayer returns a stroke that the same position gives on another layer, drawn
// evenly, or -1.
func (w *Work) onLayer(id int, r *rand.Rand) int {
	k := keyOf(w.Strokes[id])
	var found []int
	for other, s := range w.Strokes {
		o := keyOf(s)
		o.layer = k.layer
		if o == k && s.Layer != k.layer && !s.Retired {
			found = append(found, other)
		}
	}
	if len(found) == 0 {
		return -1
	}
	return found[r.IntN(len(found))]
}

// mistimed returns what the position gives when the hold of the layer comes too late, or is let
// go too late after prev, or -1.
func (w *Work) mistimed(id, prev int) int {
	k := keyOf(w.Strokes[id])
	layer := 0
	if k.layer == 0 && prev >= 0 && w.Strokes[prev].Board == k.board {
		layer = w.Strokes[prev].Layer
	}
	if layer == k.layer {
		return -1
	}
	k.layer = layer
	return w.gives(k)
}

// gives returns the stroke of a position on a layer, or what the base layer has there, to
// which layers often fall through, or -1.
func (w *Work) gives(k key) int {
	if id, ok := w.at[k]; ok {
		return id
	}
	k.layer = 0
	if id, ok := w.at[k]; ok {
		return id
	}
	return -1
}

// beside returns the stroke of the next position on one side or, if there is none,
// the other, some rows and columns away, or -1.
func (w *Work) beside(id, rows, cols int) int {
	for range 2 {
		k := keyOf(w.Strokes[id])
		k.row += rows
		k.col += cols
		if other := w.gives(k); other >= 0 {
			return other
		}
		rows, cols = -rows, -cols
	}
	return -1
}

// mirrored returns the stroke of the same finger of the other hand, or -1.
func (w *Work) mirrored(id int) int {
	s := w.Strokes[id]
	own, other := w.ofFinger(id, s.Hand), w.ofFinger(id, 1-s.Hand)
	slices.Reverse(other)
	if i := slices.Index(own, id); i >= 0 && i < len(other) {
		return other[i]
	}
	return -1
}

// ofFinger lists the strokes of id's board, layer, row and finger on a hand, by column.
func (w *Work) ofFinger(id, hand int) (list []int) {
	s := w.Strokes[id]
	for other, o := range w.Strokes {
		if o.Board == s.Board && o.Layer == s.Layer && o.Row == s.Row && o.Finger == s.Finger && o.Hand == hand && !o.Retired {
			list = append(list, other)
		}
	}
	slices.SortFunc(list, func(a, b int) int { return cmp.Compare(w.Strokes[a].Col, w.Strokes[b].Col) })
	return list
}

// habitual returns the stroke of the base layer that lies where the other board has
// the symbol: for the same finger, in the row that is nearest. It is -1 where
// the other board does not have the symbol.
func (w *Work) habitual(id int) int {
	s := w.Strokes[id]
	if s.Other < 0 {
		return -1
	}
	there := w.Strokes[s.Other]
	best, far := -1, 0
	for other, o := range w.Strokes {
		if o.Board != s.Board || o.Layer != 0 || o.Hand != there.Hand || o.Finger != there.Finger || o.Retired {
			continue
		}
		if d := max(o.Row-there.Row, there.Row-o.Row); best < 0 || d < far {
			best, far = other, d
		}
	}
	return best
}

// wrong draws a slip. habit is how strongly the other board's place pulls, 0 to 1. Of
// the rest, wrong layers, columns, rows and hands come about as 30 to 35 to 20 to 15. One
// that comes to nothing, or to what was asked for, gives way to the next column.
func (w *Work) wrong(id int, habit float64, r *rand.Rand) (int, Slip) {
	got, slip := w.aim(id, .35*habit, r)
	if got < 0 || got == id {
		got, slip = w.beside(id, 0, 1), Column
	}
	return got, slip
}

// aim draws what a hand goes for; old is the chance that it is the other board's place.
func (w *Work) aim(id int, old float64, r *rand.Rand) (int, Slip) {
	s := w.Strokes[id]
	u, side := r.Float64(), 1-2*r.IntN(2)
	rest := 1 - old
	switch {
	case u < old && s.Other >= 0:
		return w.habitual(id), Habit
	case u < old+.3*rest && s.Layer != 0:
		return w.onLayer(id, r), Layer
	case u < old+.65*rest:
		return w.beside(id, 0, side), Column
	case u < old+.85*rest:
		return w.beside(id, side, 0), Row
	}
	return w.mirrored(id), Mirror
}
