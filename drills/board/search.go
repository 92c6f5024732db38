package board

import (
	"slices"
)

// way is one way to produce a symbol, as indices into the board: the state of
// the layers, the modifiers held, and the last key or combo.
type way struct {
	state   int
	keys    []int
	as      As
	layer   int
	level   int
	holders []holder
}

// searcher collects the ways to all symbols.
type searcher struct {
	*Board
	ways map[Symbol][]way
	dead map[rune][]way
}

// search finds every stroke of the board: over all states that explore lists,
// every key and combo, plain and with Shift, AltGraph and both; then chords
// with Control or Alt; then dead keys with a letter or Space. A way is left
// out where the same works with less. Chords of several modifiers are found
// when they are asked for.
func (b *Board) search() {
	const usual = 512 // symbols of a board with its chords
	s := &searcher{b, make(map[Symbol][]way, usual), map[rune][]way{}}
	b.noteTwofold()
	b.states, b.complete = b.explore()
	for i := range b.states {
		s.keysIn(i)
		s.combosIn(i)
	}
	s.chords()
	b.ways = s.ways
	b.strokes = make(map[Symbol][]Stroke, len(s.ways))
	for sym, ways := range s.ways {
		b.strokes[sym] = b.strokesOf(ways)
	}
	s.deadKeys()
	for sym := range b.strokes {
		b.symbols = append(b.symbols, sym)
		sortStrokes(b.strokes[sym])
	}
	sortSymbols(b.symbols)
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
		w := way{state: at, keys: []int{key}, as: AsPress, layer: layer}
		if e.hold.verb != nothing {
			w.as = AsTap
		}
		s.meaning(w, e.tap)
		w.as = AsHold
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
		s.meaning(way{state: at, keys: c.keys, as: AsCombo, layer: max(c.layer, 0)}, c.gives)
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
	w.level = level
	mods := []Symbol{}
	if level&1 != 0 {
		mods = append(mods, Shift)
	}
	if level&2 != 0 {
		mods = append(mods, AltGraph)
	}
	s.holding(w, mods, func(w way) { s.add(sym, dead, w) })
}

// holding calls use for each choice of keys that hold the modifiers.
func (b *Board) holding(w way, mods []Symbol, use func(way)) {
	if len(mods) == 0 {
		use(w)
		return
	}
	for _, h := range b.states[w.state].holders {
		if h.mod != mods[0] || slices.Contains(w.keys, h.key) || slices.ContainsFunc(w.holders, func(o holder) bool { return o.key == h.key }) {
			continue
		}
		with := w
		with.holders = append(slices.Clip(w.holders), h)
		b.holding(with, mods[1:], use)
	}
}

func (s *searcher) add(sym Symbol, dead rune, w way) {
	if !s.minimal(w) {
		return
	}
	if dead != 0 {
		s.dead[dead] = append(s.dead[dead], w)
		return
	}
	known := s.ways[sym]
	if known == nil {
		known = make([]way, 0, 4)
	}
	s.ways[sym] = append(known, w)
}

// minimal reports whether no act of the way can be left out.
func (b *Board) minimal(w way) bool {
	for _, n := range b.states[w.state].without {
		if b.worksIn(w, b.states[n]) {
			return false
		}
	}
	return true
}

func (b *Board) worksIn(w way, less *state) bool {
	for _, k := range w.keys {
		if slices.Contains(less.down, k) {
			return false
		}
	}
	if w.as == AsCombo {
		if b.comboOn(less, w.keys) != b.comboOn(b.states[w.state], w.keys) {
			return false
		}
	} else {
		here, _ := b.find(b.states[w.state].stack, w.keys[0])
		there, _ := b.find(less.stack, w.keys[0])
		if here != there {
			return false
		}
	}
	for _, h := range w.holders {
		if !slices.ContainsFunc(less.holders, func(o holder) bool { return o.mod == h.mod && o.key == h.key }) {
			return false
		}
	}
	return true
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
	for mark, first := range s.dead {
		if c, ok := deadSpace(mark); ok {
			s.pairs(c, first, s.ways[Space])
		}
		for letter, ways := range s.ways {
			if letter.IsCharacter() {
				if c, ok := deadLetter(mark, letter); ok {
					s.pairs(c, first, ways)
				}
			}
		}
	}
}

func (s *searcher) pairs(sym Symbol, first, second []way) {
	for _, d := range first {
		for _, w := range second {
			s.strokes[sym] = append(s.strokes[sym], s.joined(d, w))
		}
	}
}
