package board

import (
	"cmp"
	"slices"
	"strings"
)

// step is one key's part in a way: its index, how it is done, and the modifier
// that it holds.
type step struct {
	key int
	as  As
	mod Symbol
}

// usualSteps is more than most ways have.
const usualSteps = 12

// steps adds the steps of a way to list, in the order in which they are done.
func (b *Board) steps(list []step, w *way) []step {
	if w.dead != none {
		list = b.stepsAlone(list, &b.dead[w.dead])
	}
	return b.stepsAlone(list, w)
}

// stepsAlone adds those without the dead key.
func (b *Board) stepsAlone(list []step, w *way) []step {
	path := b.states[w.state].path
	for n := range len(path) + 1 {
		for h := range b.holds(w) {
			if h.after == n {
				list = append(list, step{h.key, AsHold, h.mod})
			}
		}
		if n < len(path) {
			list = append(list, step{path[n].key, path[n].as, ""})
		}
	}
	if w.combo == none {
		return append(list, step{int(w.key), b.asOf(w), ""})
	}
	for _, k := range b.combos[w.combo].keys {
		list = append(list, step{k, AsCombo, ""})
	}
	return list
}

// sortWays puts the cheapest way to each symbol first.
func (b *Board) sortWays() {
	for _, ways := range b.ways {
		b.sort(ways)
	}
}

func (b *Board) sort(ways []way) {
	var first, second [usualSteps]step
	one, two := first[:], second[:]
	for i := range ways {
		one = b.steps(one[:0], &ways[i])
		ways[i].effort = b.effort(one)
	}
	slices.SortFunc(ways, func(v, w way) int {
		if c := cmp.Compare(v.effort, w.effort); c != 0 {
			return c
		}
		one, two = b.steps(one[:0], &v), b.steps(two[:0], &w)
		return slices.CompareFunc(one, two, func(s, t step) int {
			return cmp.Or(cmp.Compare(s.key, t.key), strings.Compare(string(s.as), string(t.as)))
		})
	})
}

// strokesOf writes ways out as strokes.
func (b *Board) strokesOf(ways []way) []Stroke {
	total := 0
	for i := range ways {
		total += b.length(&ways[i])
	}
	presses := make([]Press, 0, total)
	out := make([]Stroke, len(ways))
	var buffer [usualSteps]step
	for i := range ways {
		w, from := &ways[i], len(presses)
		for _, s := range b.steps(buffer[:0], w) {
			presses = append(presses, b.press(s))
		}
		out[i] = Stroke{slices.Clip(presses[from:]), b.layers[w.layer].name, b.levelOf(w), w.effort}
	}
	return out
}

// length is how many steps a way has.
func (b *Board) length(w *way) int {
	n := len(b.states[w.state].path) + int(w.count) + 1
	if w.combo != none {
		n += len(b.combos[w.combo].keys) - 1
	}
	if w.dead != none {
		n += b.length(&b.dead[w.dead])
	}
	return n
}

// levelOf is the level of a way, that of its dead key included.
func (b *Board) levelOf(w *way) int {
	if w.dead != none {
		return int(w.level | b.dead[w.dead].level)
	}
	return int(w.level)
}

func (b *Board) press(s step) Press {
	k := &b.keys[s.key]
	return Press{k.Position, s.as, s.mod, k.Code, k.Grid}
}

// askedChord finds the ways to a chord that is not among the symbols: several
// modifiers, or Meta.
func (b *Board) askedChord(s Symbol) []way {
	mods, key, ok := s.Chord()
	if !ok || ChordOf(key, mods...) != s {
		return nil
	}
	var found []way
	for _, w := range b.ways[key] {
		if w.dead != none {
			continue
		}
		b.holding(w, mods, func(w way) {
			if b.minimal(w) {
				found = append(found, w)
			}
		})
	}
	b.sort(found)
	return found
}

// sortedSymbols puts characters first, in the order of Unicode, then keys,
// chords and what no computer sees.
func sortedSymbols(ways map[Symbol][]way) []Symbol {
	order := map[Symbol]int{}
	for i, k := range seenKeys() {
		order[k] = i + 1
	}
	type rank struct {
		class, order int
		key, symbol  Symbol
	}
	ranks := make([]rank, 0, len(ways))
	for s := range ways {
		mods, key, chord := s.Chord()
		switch {
		case chord:
			ranks = append(ranks, rank{2 + len(mods)*8 + slices.Index(modifiers(), mods[0]), order[key], key, s})
		case s.IsCharacter():
			ranks = append(ranks, rank{0, 0, s, s})
		case order[s] > 0:
			ranks = append(ranks, rank{1, order[s], s, s})
		default:
			ranks = append(ranks, rank{1000, 0, s, s})
		}
	}
	slices.SortFunc(ranks, func(a, b rank) int {
		return cmp.Or(cmp.Compare(a.class, b.class), cmp.Compare(a.order, b.order), strings.Compare(string(a.key), string(b.key)), strings.Compare(string(a.symbol), string(b.symbol)))
	})
	all := make([]Symbol, len(ranks))
	for i, r := range ranks {
		all[i] = r.symbol
	}
	return all
}
