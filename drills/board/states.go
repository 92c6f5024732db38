package board

import (
	"math/bits"
	"slices"
)

// Bounds of the search for strokes: how many keys open layers before the last
// key is pressed, how many states of the layers are looked at, on a large board
// as many as have so many keys together, and how many keys are tried to hold
// one modifier. Modifiers come on top of the depth. A board with more states
// gets a warning.
const (
	maxDepth   = 3
	maxStates  = 2000
	maxStops   = 200_000
	maxHolders = 8
)

func (b *Board) stateBound() int { return min(maxStates, maxStops/max(len(b.keys), 1)) }

// act is one key's part in getting at a layer.
type act struct {
	key   int
	as    As
	layer int
}

// state is what the layers are after some acts from rest, where nothing is
// held and the first layer alone is active.
type state struct {
	stay                  int    // the layer that stands in for the first one; 0 for itself
	held, latched, locked uint64 // sets of layers
	down                  []int  // keys held, ascending
	path                  []act
	stack                 []int // the active layers, the topmost first
	since                 []int // states passed since the last tap, itself last
	without               []int // the states after the same path less one act
	holders               []holder
}

// stateKey is what makes two states the same.
type stateKey struct {
	stay                  int
	held, latched, locked uint64
	down                  [maxDepth + 1]int16
}

func (s *state) key() stateKey {
	k := stateKey{stay: s.stay, held: s.held, latched: s.latched, locked: s.locked}
	for i, d := range s.down {
		k.down[i] = int16(d) + 1
	}
	return k
}

func has(set uint64, layer int) bool { return set>>layer&1 != 0 }

// stackOf orders the active layers: those that are held, latched, locked or
// opened by others, the later in the file over the earlier; then the layer
// that stays; then the first.
func (b *Board) stackOf(s *state) []int {
	on := b.withWhens(s.held | s.latched | s.locked)
	stack := make([]int, 0, bits.OnesCount64(on)+2)
	for l := len(b.layers) - 1; l > 0; l-- {
		if has(on, l) && l != s.stay {
			stack = append(stack, l)
		}
	}
	if s.stay != 0 {
		stack = append(stack, s.stay)
	}
	return append(stack, 0)
}

// withWhens adds the layers that open by themselves while others are active.
func (b *Board) withWhens(on uint64) uint64 {
	for before := uint64(0); before != on; {
		before = on
		for i, l := range b.layers {
			if len(l.when) == 0 || has(on, i) {
				continue
			}
			if !slices.ContainsFunc(l.when, func(w int) bool { return !has(on, w) }) {
				on |= 1 << i
			}
		}
	}
	return on
}

// find returns the entry that key has in the stack, and its layer.
func (b *Board) find(stack []int, key int) (*entry, int) {
	for _, l := range stack {
		if e := &b.layers[l].cells[key]; e.tap.verb != through {
			return e, l
		}
	}
	return &b.layers[0].cells[key], 0
}

// apply does one act. Holding keeps what is held; a tap lets it go. A latched
// layer serves one key, whatever that does.
func (b *Board) apply(s *state, a act) *state {
	t := &state{stay: s.stay, held: s.held, locked: s.locked}
	t.path = append(slices.Clip(slices.Clone(s.path)), a)
	if a.as == AsHold {
		t.held |= 1 << a.layer
		t.down = append(slices.Clone(s.down), a.key)
		slices.Sort(t.down)
	} else {
		t.held = 0
	}
	switch a.as {
	case AsLatch:
		t.latched = 1 << a.layer
	case AsLock:
		t.locked ^= 1 << a.layer
	case AsStay:
		t.stay = a.layer
	}
	t.stack = b.stackOf(t)
	return t
}

// acts returns what can be done next to open a layer.
func (b *Board) acts(s *state) []act {
	var out []act
	for key := range b.keys {
		if slices.Contains(s.down, key) {
			continue
		}
		e, _ := b.find(s.stack, key)
		for _, m := range []*meaning{&e.tap, &e.hold} {
			if m.verb == opens {
				out = append(out, act{key, m.as, m.layer})
			}
		}
	}
	return out
}

// opensNew reports whether an act opens a layer that is not open in its way yet.
func (s *state) opensNew(a act) bool {
	switch a.as {
	case AsLock:
		return !has(s.locked, a.layer)
	case AsStay:
		return s.stay != a.layer
	}
	return true
}

// explore lists the states within maxDepth acts of rest, the shortest paths first.
func (b *Board) explore() (states []*state, complete bool) {
	rest := &state{since: []int{0}}
	rest.stack = b.stackOf(rest)
	states = []*state{rest}
	index := map[stateKey]int{rest.key(): 0}
	for i := 0; i < len(states); i++ {
		s := states[i]
		if len(s.path) == maxDepth {
			break
		}
		for _, a := range b.acts(s) {
			if !s.opensNew(a) {
				continue
			}
			t := b.apply(s, a)
			if _, seen := index[t.key()]; seen {
				continue
			}
			if len(states) == b.stateBound() {
				return states, false
			}
			index[t.key()] = len(states)
			if a.as == AsHold {
				t.since = slices.Clone(s.since)
			}
			t.since = append(t.since, len(states))
			states = append(states, t)
		}
	}
	for _, s := range states {
		s.without = b.reductions(s, index)
		s.holders = b.holdersOf(s, states)
	}
	return states, true
}

// reductions finds the states after the same path with one act left out, as
// far as the others can still be done then.
func (b *Board) reductions(s *state, index map[stateKey]int) []int {
	var out []int
	for skip := range s.path {
		t := &state{}
		t.stack = b.stackOf(t)
		ok := true
		for i, a := range s.path {
			if i != skip && ok {
				ok = slices.Contains(b.acts(t), a)
				t = b.apply(t, a)
			}
		}
		if n, known := index[t.key()]; ok && known {
			out = append(out, n)
		}
	}
	return out
}

// holdersOf finds the keys that hold a modifier in s or in the states passed
// since the last tap.
func (b *Board) holdersOf(s *state, states []*state) []holder {
	var out []holder
	count := map[Symbol]int{}
	for _, n := range s.since {
		at := states[n]
		for key := range b.keys {
			if slices.Contains(s.down, key) {
				continue
			}
			e, _ := b.find(at.stack, key)
			for _, m := range []*meaning{&e.tap, &e.hold} {
				h := holder{m.symbol, key, len(at.path)}
				if m.verb == modifies && count[h.mod] < maxHolders && !slices.ContainsFunc(out, h.like) {
					out = append(out, h)
					count[h.mod]++
				}
			}
		}
	}
	return out
}
