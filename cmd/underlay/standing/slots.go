package standing

import (
	"math"
	"slices"

	"underlay/drills/board"
)

// slot is a position on a layer above the base, with what is drilled there.
type slot struct {
	layer    string
	position board.Position
	symbol   board.Symbol // what a plain tap gives; empty where it is free
	members  []int        // ids of the strokes that are pressed there last, whatever is held besides
}

// slots returns the positions among which symbols can move: those with a
// drilled stroke, and free ones of layers that have any. Keys that hold or
// that no program sees stay where they are.
func (w *work) slots() []slot {
	b := w.in.Boards[0]
	var out []slot
	for _, layer := range b.Layers()[1:] {
		if len(w.ways(layer)) == 0 {
			continue
		}
		for _, k := range b.Keys() {
			if s, ok := w.slot(layer, k.Position); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

func (w *work) slot(layer string, p board.Position) (slot, bool) {
	l := w.in.Boards[0].Legend(layer, p)
	if l.Unseen || l.Never || l.Hold != "" {
		return slot{}, false
	}
	s := slot{layer: layer, position: p}
	for id, st := range w.in.Strokes {
		if st.Board == 0 && !st.Retired && st.Keys.Layer == layer && st.Keys.Final().Position == p {
			s.members = append(s.members, id)
			if st.Keys.Level == 0 && s.symbol == "" && len(modifiers(st.Keys)) == 0 {
				s.symbol = st.Symbol
			}
		}
	}
	if len(s.members) > 0 {
		return s, s.symbol != ""
	}
	// What nobody drills there may still be wanted: only a position with
	// nothing of its own on it is free, and a thumb key never is.
	key, _ := w.in.Boards[0].KeyAt(p)
	free := l.Tap == "" && l.Hold == "" && key.Finger != board.Thumb
	return s, free
}

// modifiers are the keys of a stroke that hold Shift or another modifier.
func modifiers(s board.Stroke) []board.Press {
	var out []board.Press
	for _, p := range s.Keys[:max(len(s.Keys)-1, 0)] {
		if p.As == board.AsHold && p.Symbol != "" {
			out = append(out, p)
		}
	}
	return out
}

// ways are the ways into a layer: what is done before the last key, modifiers
// left out, in the drilled strokes of the layer.
func (w *work) ways(layer string) [][]board.Press {
	if w.into == nil {
		w.into = map[string][][]board.Press{}
		for _, st := range w.in.Strokes {
			if st.Board == 0 && !st.Retired && len(st.Keys.Keys) > 1 {
				w.way(st.Keys)
			}
		}
	}
	return w.into[layer]
}

func (w *work) way(s board.Stroke) {
	var way []board.Press
	for _, p := range s.Keys[:len(s.Keys)-1] {
		if p.As == board.AsCombo {
			return
		}
		if p.Symbol == "" {
			way = append(way, p)
		}
	}
	same := func(v []board.Press) bool { return slices.Equal(v, way) }
	if len(way) > 0 && !slices.ContainsFunc(w.into[s.Layer], same) {
		w.into[s.Layer] = append(w.into[s.Layer], way)
	}
}

// effortAt is the effort of stroke id if its last key were at slot s, by the
// cheapest way into the layer, or +Inf where the key is one of those held.
func (w *work) effortAt(id int, s slot) float64 {
	st := w.in.Strokes[id]
	if st.Keys.Layer == s.layer && st.Keys.Final().Position == s.position {
		return st.Keys.Effort
	}
	mods := modifiers(st.Keys)
	best := math.Inf(1)
	for _, way := range w.ways(s.layer) {
		keys := append(append(slices.Clone(mods), way...), board.Press{Position: s.position, As: board.AsPress})
		if !pressedTwice(keys) {
			best = min(best, w.in.Boards[0].Effort(keys))
		}
	}
	return best
}

// pressedTwice tells whether the last key is held already.
func pressedTwice(keys []board.Press) bool {
	last := keys[len(keys)-1].Position
	return slices.ContainsFunc(keys[:len(keys)-1], func(p board.Press) bool { return p.Position == last })
}
