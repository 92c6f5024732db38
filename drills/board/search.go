package board

import "slices"

// searcher collects the ways to all symbols.
type searcher struct {
	*Board
	dead map[rune][]int32 // the ways to each dead key, as indices into Board.dead
}

// search finds every stroke of the board: over all states that explore lists,
// every key and combo, plain and with Shift, AltGraph and both; then chords
// with Control or Alt; then dead keys with a letter or Space. A way is left
// out where the same works with less. Chords of several modifiers are found
// when they are asked for.
func (b *Board) search() {
	const usual = 512 // symbols of a board with its chords
	b.ways = make(map[Symbol][]way, usual)
	b.noteTwofold()
	b.states, b.complete = b.explore()
	s := &searcher{b, map[rune][]int32{}}
	for i := range b.states {
		s.keysIn(i)
		s.combosIn(i)
	}
	s.chords()
	s.deadKeys()
	b.sortWays()
	b.symbols = sortedSymbols(b.ways)
	b.choose()
	b.view()
}

func (b *Board) noteTwofold() {
	b.twofold = make([]bool, len(b.keys))
	for _, l := range b.layers {
		for k := range l.cells {
			b.twofold[k] = b.twofold[k] || l.cells[k].hold.verb != nothing
		}
	}
}

func (s *searcher) keysIn(at int) {
	st := s.states[at]
	for key := range s.keys {
		if slices.Contains(st.down, key) {
			continue
		}
		e, layer := s.find(st.stack, key)
		w := way{state: int32(at), key: int16(key), combo: none, dead: none, layer: uint8(layer)}
		s.meaning(w, e.tap)
		w.held = true
		s.meaning(w, e.hold)
	}
}

func (s *searcher) combosIn(at int) {
	st := s.states[at]
	for i := range s.combos {
		c := &s.combos[i]
		if s.comboOn(st, c.keys) != c || slices.ContainsFunc(c.keys, func(k int) bool { return slices.Contains(st.down, k) }) {
			continue
		}
		s.meaning(way{state: int32(at), combo: int16(i), dead: none, layer: uint8(max(c.layer, 0))}, c.gives)
	}
}

// comboOn returns the combo of these keys that works in a state: one bound to
// the topmost layer before one for any. It is nil where there is none.
func (b *Board) comboOn(s *state, keys []int) *combo {
	var any *combo
	for i := range b.combos {
		c := &b.combos[i]
		if !slices.Equal(c.keys, keys) {
			continue
		}
		switch c.layer {
		case s.stack[0]:
			return c
		case -1:
			any = c
		}
	}
	return any
}

// meaning adds what one meaning of a key gives, plain and with modifiers.
func (s *searcher) meaning(w way, m meaning) {
	switch m.verb {
	case gives:
		s.add(m.symbol, 0, w)
		s.shifted(w, m.symbol)
	case unseen:
		s.add(m.symbol, 0, w)
	case physKey:
		s.physical(w, s.layout.keys[m.code])
	}
}

// shifted adds what Shift and AltGraph make of a symbol that a key sends.
func (s *searcher) shifted(w way, base Symbol) {
	if base.IsCharacter() {
		for level := 1; level < 4; level++ {
			if c, ok := s.layout.above(base, level); ok {
				s.withLevel(c, 0, level, w)
			}
		}
		return
	}
	if _, _, chord := base.Chord(); !chord && !base.Unseen() && base != Space {
		s.withLevel(ChordOf(base, Shift), 0, 1, w)
	}
}

func (s *searcher) physical(w way, levels [4]glyph) {
	for level, g := range levels {
		if slices.Contains(levels[:level], g) || g == (glyph{}) {
			continue // there is a simpler way on the same key
		}
		s.withLevel(g.char, g.dead, level, w)
	}
}

// withLevel adds a way for each choice of keys that hold what a level needs.
func (s *searcher) withLevel(sym Symbol, dead rune, level int, w way) {
	w.level = uint8(level)
	var mods []Symbol
	if level&1 != 0 {
		mods = append(mods, Shift)
	}
	if level&2 != 0 {
		mods = append(mods, AltGraph)
	}
	s.holding(w, mods, func(w way) { s.add(sym, dead, w) })
}

func (s *searcher) add(sym Symbol, dead rune, w way) {
	switch {
	case !s.minimal(w):
	case dead != 0:
		s.dead[dead] = append(s.dead[dead], int32(len(s.Board.dead)))
		s.Board.dead = append(s.Board.dead, w)
	default:
		s.ways[sym] = append(s.ways[sym], w)
	}
}

// chords adds Control and Alt with everything that a chord can end in.
func (s *searcher) chords() {
	var bases []Symbol
	for sym := range s.ways {
		if endsChord(sym) {
			bases = append(bases, sym)
		}
	}
	for _, sym := range bases {
		for _, mod := range []Symbol{Control, Alt} {
			if mod == Control && isUpper(sym) {
				continue // a terminal cannot tell it from the lower case
			}
			name := ChordOf(sym, mod)
			for _, w := range s.ways[sym] {
				s.holding(w, []Symbol{mod}, func(w way) { s.add(name, 0, w) })
			}
		}
	}
}

func endsChord(s Symbol) bool {
	if _, _, chord := s.Chord(); chord || s.Unseen() {
		return false
	}
	return len(s) > 1 && !s.IsCharacter() || len(s) == 1
}

func isUpper(s Symbol) bool { return len(s) == 1 && s[0] >= 'A' && s[0] <= 'Z' }

// deadKeys adds what dead keys give with Space and with letters.
func (s *searcher) deadKeys() {
	found := map[Symbol][]way{}
	for mark, first := range s.dead {
		if c, ok := deadSpace(mark); ok {
			found[c] = append(found[c], pairs(first, s.ways[Space])...)
		}
		for letter, ways := range s.ways {
			if letter.IsCharacter() {
				if c, ok := deadLetter(mark, letter); ok {
					found[c] = append(found[c], pairs(first, ways)...)
				}
			}
		}
	}
	for c, ways := range found {
		s.ways[c] = append(s.ways[c], ways...)
	}
}

// pairs lists every dead key with every way after it.
func pairs(dead []int32, ways []way) []way {
	out := make([]way, 0, len(dead)*len(ways))
	for _, d := range dead {
		for _, w := range ways {
			w.dead = d
			out = append(out, w)
		}
	}
	return out
}
