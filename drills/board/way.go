package board

import (
	"iter"
	"slices"
)

// way is one way to produce a symbol: a key or a combo, struck in a state of the
// layers while modifiers are held, and perhaps after a dead key. A large board
// has thousands of them, so it is small and has no pointers; it is written out as
// a Stroke when it is asked for.
type way struct {
	effort  float64
	state   int32
	dead    int32 // the dead key struck first, as an index into Board.dead, or none
	combo   int16 // or none: the last key is key
	key     int16
	layer   uint8 // the one that gives the last key its meaning
	level   uint8
	held    bool // the last key does what it has for being held
	count   uint8
	holders [mostHeld]uint8 // of which count are there, as indices into state.holders
}

const none = -1

// mostHeld is how many modifiers a way may have: those of the Shift and AltGraph
// levels, and all of a chord.
const mostHeld = 7

// holder is a key that holds a modifier.
type holder struct {
	mod   Symbol
	key   int
	after int // how many acts of the state's path come first
}

// like reports whether the other is the same key for the same modifier.
func (h holder) like(o holder) bool { return h.mod == o.mod && h.key == o.key }

// with returns the way with one more of its state's holders.
func (w way) with(holder int) way {
	w.holders[w.count] = uint8(holder)
	w.count++
	return w
}

// holds lists the keys that hold modifiers in a way.
func (b *Board) holds(w *way) iter.Seq[holder] {
	return func(yield func(holder) bool) {
		for _, h := range w.holders[:w.count] {
			if !yield(b.states[w.state].holders[h]) {
				return
			}
		}
	}
}

// strikes reports whether key is the last one of a way, or among them.
func (b *Board) strikes(w *way, key int) bool {
	if w.combo != none {
		return slices.Contains(b.combos[w.combo].keys, key)
	}
	return int(w.key) == key
}

// asOf says how the last key of a way is done, where that is no combo.
func (b *Board) asOf(w *way) As {
	switch {
	case w.held:
		return AsHold
	case b.layers[w.layer].cells[w.key].hold.verb != nothing:
		return AsTap
	}
	return AsPress
}

// holding calls use for each choice of keys that hold the modifiers.
func (b *Board) holding(w way, mods []Symbol, use func(way)) {
	if len(mods) == 0 {
		use(w)
		return
	}
	for i, h := range b.states[w.state].holders {
		if h.mod == mods[0] && !b.strikes(&w, h.key) && !b.heldBy(&w, h.key) {
			b.holding(w.with(i), mods[1:], use)
		}
	}
}

func (b *Board) heldBy(w *way, key int) bool {
	for h := range b.holds(w) {
		if h.key == key {
			return true
		}
	}
	return false
}

// minimal reports whether no act of the way can be left out.
func (b *Board) minimal(w way) bool {
	return !slices.ContainsFunc(b.states[w.state].without, func(n int) bool { return b.worksIn(&w, b.states[n]) })
}

func (b *Board) worksIn(w *way, less *state) bool {
	if slices.ContainsFunc(less.down, func(k int) bool { return b.strikes(w, k) }) || !b.sameMeaning(w, less) {
		return false
	}
	for h := range b.holds(w) {
		if !slices.ContainsFunc(less.holders, h.like) {
			return false
		}
	}
	return true
}

// sameMeaning reports whether the last key or combo of a way does in another
// state what it does in its own.
func (b *Board) sameMeaning(w *way, other *state) bool {
	own := b.states[w.state]
	if w.combo != none {
		keys := b.combos[w.combo].keys
		return b.comboOn(other, keys) == b.comboOn(own, keys)
	}
	here, _ := b.find(own.stack, int(w.key))
	there, _ := b.find(other.stack, int(w.key))
	return here == there
}
