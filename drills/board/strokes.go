package board

import (
	"cmp"
	"slices"
	"strings"
)

// strokesOf writes ways out as strokes.
func (b *Board) strokesOf(ways []way) []Stroke {
	out := make([]Stroke, len(ways))
	for i, w := range ways {
		keys := b.presses(w)
		out[i] = Stroke{Keys: keys, Layer: b.layers[w.layer].name, Level: w.level, Effort: b.effort(keys)}
	}
	return out
}

func (b *Board) joined(d, w way) Stroke {
	keys := append(b.presses(d), b.presses(w)...)
	return Stroke{Keys: keys, Layer: b.layers[w.layer].name, Level: d.level | w.level, Effort: b.effort(keys)}
}

func (b *Board) presses(w way) []Press {
	path := b.states[w.state].path
	keys := make([]Press, 0, len(path)+len(w.holders)+len(w.keys))
	for n := range len(path) + 1 {
		for _, h := range w.holders {
			if h.after == n {
				keys = append(keys, b.press(h.key, AsHold, h.mod))
			}
		}
		if n < len(path) {
			keys = append(keys, b.press(path[n].key, path[n].as, ""))
		}
	}
	for _, k := range w.keys {
		keys = append(keys, b.press(k, w.as, ""))
	}
	return keys
}

func (b *Board) press(key int, as As, mod Symbol) Press {
	k := &b.keys[key]
	return Press{Position: k.Position, As: as, Symbol: mod, Code: k.Code, Grid: k.Grid}
}

func sortStrokes(all []Stroke) {
	slices.SortFunc(all, func(a, b Stroke) int {
		if c := cmp.Compare(a.Effort, b.Effort); c != 0 {
			return c
		}
		return slices.CompareFunc(a.Keys, b.Keys, func(p, q Press) int {
			return cmp.Or(cmp.Compare(p.Position.Row, q.Position.Row), cmp.Compare(p.Position.Col, q.Position.Col), strings.Compare(string(p.As), string(q.As)))
		})
	})
}

// askedChord finds the strokes of a chord that is not among the symbols:
// several modifiers, or Meta.
func (b *Board) askedChord(s Symbol) []Stroke {
	mods, key, ok := s.Chord()
	if !ok || ChordOf(key, mods...) != s {
		return nil
	}
	var found []way
	for _, w := range b.ways[key] {
		b.holding(w, mods, func(w way) {
			if b.minimal(w) {
				found = append(found, w)
			}
		})
	}
	out := b.strokesOf(found)
	sortStrokes(out)
	return out
}

// sortSymbols puts characters first, in the order of Unicode, then keys,
// chords and what no computer sees.
func sortSymbols(all []Symbol) {
	order := map[Symbol]int{}
	for i, k := range seenKeys() {
		order[k] = i + 1
	}
	type rank struct {
		class, order int
		key, symbol  Symbol
	}
	ranks := make([]rank, len(all))
	for i, s := range all {
		mods, key, chord := s.Chord()
		switch {
		case chord:
			ranks[i] = rank{2 + len(mods)*8 + slices.Index(modifiers(), mods[0]), order[key], key, s}
		case s.IsCharacter():
			ranks[i] = rank{0, 0, s, s}
		case order[s] > 0:
			ranks[i] = rank{1, order[s], s, s}
		default:
			ranks[i] = rank{1000, 0, s, s}
		}
	}
	slices.SortFunc(ranks, func(a, b rank) int {
		return cmp.Or(cmp.Compare(a.class, b.class), cmp.Compare(a.order, b.order), strings.Compare(string(a.key), string(b.key)), strings.Compare(string(a.symbol), string(b.symbol)))
	})
	for i, r := range ranks {
		all[i] = r.symbol
	}
}
