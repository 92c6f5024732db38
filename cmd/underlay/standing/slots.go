package standing

import (
	"math"
	"slices"

	"underlay/drills/board"
)

// slot is a position on a layer above the base whose entry can be moved.
type slot struct {
	layer    string
	position board.Position
	symbol   board.Symbol // what a plain tap gives; empty where nothing is
	ids      []int        // of the symbols that have a stroke with its last key there, drilled or not
}

func (s slot) has(st board.Stroke) bool {
	return st.Layer == s.layer && len(st.Keys) > 0 && st.Final().Position == s.position
}

// arrangement is all strokes of the board being learned, and what can be moved.
type arrangement struct {
	board   *board.Board
	symbols map[int]board.Symbol       // by id
	strokes map[int][]way              // by id of the symbol: every way to produce it, the drilled one first
	into    map[string][][]board.Press // ways into a layer
	slots   []slot
	places  map[string]int            // by layer and level: a number
	fingers map[board.Position]finger // by key
	efforts map[moved]float64         // see effortAt
}

// way is one stroke that produces a symbol.
type way struct {
	board.Stroke
	placed    placed
	modifiers string // held, as the journal names them
}

// finger is one of the ten.
type finger struct {
	hand   board.Hand
	finger board.Finger
}

// moved is a stroke with its last key at another place; strokes with the same
// modifiers are alike.
type moved struct {
	modifiers string
	layer     string
	position  board.Position
}

// arrange looks at the board being learned. Keys that hold, that fall through
// or that no program sees stay where they are, and so does what is drilled
// elsewhere: it is there for a reason that the mix does not know. A thumb key
// without anything on it is not counted as free.
func (w *work) arrange() *arrangement {
	a := &arrangement{board: w.in.Boards[0], symbols: map[int]board.Symbol{}, strokes: map[int][]way{}, into: map[string][][]board.Press{},
		places: map[string]int{}, fingers: map[board.Position]finger{}, efforts: map[moved]float64{}}
	for _, k := range a.board.Keys() {
		a.fingers[k.Position] = finger{k.Hand, k.Finger}
	}
	for id, s := range w.in.Strokes {
		if s.Board != 0 || s.Retired {
			continue
		}
		a.symbols[id], a.strokes[id] = s.Symbol, []way{a.way(s.Keys, true)}
		for _, st := range a.board.Strokes(s.Symbol) {
			if !st.Equal(s.Keys) {
				a.strokes[id] = append(a.strokes[id], a.way(st, false))
			}
			a.enter(st)
		}
	}
	for _, layer := range a.board.Layers()[1:] {
		for _, k := range a.board.Keys() {
			if s, ok := a.slot(layer, k); ok {
				a.slots = append(a.slots, s)
			}
		}
	}
	return a
}

func (a *arrangement) slot(layer string, k board.Key) (slot, bool) {
	l := a.board.Legend(layer, k.Position)
	if l.Unseen || l.Never || l.Through || l.Hold != "" || len(a.into[layer]) == 0 {
		return slot{}, false
	}
	s := slot{layer: layer, position: k.Position}
	if l.Tap == "" {
		return s, k.Finger != board.Thumb
	}
	s.symbol, _ = a.board.Gives(layer, k.Position)
	for id := range a.strokes {
		if slices.ContainsFunc(a.strokes[id], func(w way) bool { return s.has(w.Stroke) }) {
			s.ids = append(s.ids, id)
		}
	}
	slices.Sort(s.ids)
	return s, slices.ContainsFunc(s.ids, func(id int) bool { return a.isHere(id, s) })
}

// isHere tells whether a symbol is the plain tap of a slot and drilled there.
func (a *arrangement) isHere(id int, s slot) bool {
	drilled := a.strokes[id][0]
	return a.symbols[id] == s.symbol && s.has(drilled.Stroke) && drilled.Level == 0
}

// enter keeps what a stroke does before its last key, modifiers left out: a way
// into its layer.
func (a *arrangement) enter(s board.Stroke) {
	var keys []board.Press
	for _, p := range s.Keys[:max(len(s.Keys)-1, 0)] {
		if p.As == board.AsCombo {
			return
		}
		if p.Symbol == "" {
			keys = append(keys, p)
		}
	}
	same := func(v []board.Press) bool { return slices.Equal(v, keys) }
	if len(keys) > 0 && !slices.ContainsFunc(a.into[s.Layer], same) {
		a.into[s.Layer] = append(a.into[s.Layer], keys)
	}
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

// effortAt is the effort of a stroke if its last key were at a slot, by the
// cheapest way into the layer, or +Inf where that key is one of those held.
func (a *arrangement) effortAt(w way, s slot) float64 {
	key := moved{w.modifiers, s.layer, s.position}
	if effort, ok := a.efforts[key]; ok {
		return effort
	}
	best := math.Inf(1)
	for _, into := range a.into[s.layer] {
		keys := slices.Concat(modifiers(w.Stroke), into, []board.Press{{Position: s.position, As: board.AsPress}})
		if !pressedTwice(keys) {
			best = min(best, a.board.Effort(keys))
		}
	}
	a.efforts[key] = best
	return best
}

// pressedTwice tells whether the last key is held already.
func pressedTwice(keys []board.Press) bool {
	last := keys[len(keys)-1].Position
	return slices.ContainsFunc(keys[:len(keys)-1], func(p board.Press) bool { return p.Position == last })
}

// placed is where and how hard a symbol is typed.
type placed struct {
	effort   float64
	position board.Position
	place    int // number of layer and level: strokes with the same one follow each other without a switch
	finger   finger
	base     bool // on the base layer
	same     bool // it is the one that is drilled now
}

// way looks at a stroke.
func (a *arrangement) way(st board.Stroke, drilled bool) way {
	p := a.at(st.Layer, st.Level, st.Final().Position, st.Effort)
	p.base, p.same = st.Layer == a.board.Layers()[0], drilled
	return way{st, p, board.Stroke{Keys: modifiers(st)}.String()}
}

// at is a stroke with its last key at a position of a layer.
func (a *arrangement) at(layer string, level int, p board.Position, effort float64) placed {
	name := layerName(board.Stroke{Layer: layer, Level: level})
	place, ok := a.places[name]
	if !ok {
		place = len(a.places)
		a.places[name] = place
	}
	return placed{effort: effort, position: p, place: place, finger: a.fingers[p]}
}

// now is how a symbol is typed on the board as it is.
func (a *arrangement) now(id int) placed { return a.strokes[id][0].placed }

// after is how a symbol would be typed with two slots changed about: the
// cheapest of its strokes, as a board chooses. It is false where it could not be
// typed any more.
func (a *arrangement) after(id int, s, t slot) (placed, bool) {
	best, found := placed{effort: math.Inf(1)}, false
	for _, w := range a.strokes[id] {
		p := w.placed
		switch {
		case s.has(w.Stroke):
			p = a.at(t.layer, w.Level, t.position, a.effortAt(w, t))
		case t.has(w.Stroke):
			p = a.at(s.layer, w.Level, s.position, a.effortAt(w, s))
		}
		if p.effort < best.effort {
			best, found = p, true
		}
	}
	return best, found
}
