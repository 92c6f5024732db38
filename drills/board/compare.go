package board

// Move is a symbol that two boards, or two states of one, produce differently.
// Of a new symbol From is empty, of one that is gone To.
type Move struct {
	Symbol   Symbol
	From, To Stroke
}

// Changes is what is different from one board to another, each list in the
// order of Symbols. Chords that go along with their key are left out.
type Changes struct {
	Moved, New, Gone []Move
	// SameShape says that both have the same keys. Else strokes count as the
	// same when the same fingers do the same.
	SameShape bool
}

// Compare tells what is different on b from a.
func Compare(a, b *Board) Changes {
	c := Changes{SameShape: sameShape(a, b)}
	same := func(s, t Stroke) bool { return s.Equal(t) }
	if !c.SameShape {
		same = func(s, t Stroke) bool { return a.Words(s) == b.Words(t) && s.Layer == t.Layer }
	}
	for _, s := range a.symbols {
		from, _ := a.Drilled(s)
		to, there := b.Drilled(s)
		switch {
		case a.goesAlong(s) && (!there || b.goesAlong(s)):
		case !there:
			c.Gone = append(c.Gone, Move{s, from, Stroke{}})
		case !same(from, to):
			c.Moved = append(c.Moved, Move{s, from, to})
		}
	}
	for _, s := range b.symbols {
		if to, _ := b.Drilled(s); len(a.Strokes(s)) == 0 && !b.goesAlong(s) {
			c.New = append(c.New, Move{s, Stroke{}, to})
		}
	}
	return c
}

func sameShape(a, b *Board) bool {
	if a.Kind != b.Kind || len(a.keys) != len(b.keys) {
		return false
	}
	for i, k := range a.keys {
		if o := b.keys[i]; k.Position != o.Position || k.Hand != o.Hand || k.Finger != o.Finger {
			return false
		}
	}
	return true
}

// goesAlong reports whether s is a chord that is struck with the key that it
// ends in, with modifiers held.
func (b *Board) goesAlong(s Symbol) bool {
	_, key, chord := s.Chord()
	if !chord {
		return false
	}
	with, _ := b.Drilled(s)
	for _, alone := range b.Strokes(key) {
		if alone.Final() == with.Final() && len(with.Keys) > len(alone.Keys) {
			return true
		}
	}
	return false
}

// Entry is everything a board knows about one symbol.
type Entry struct {
	Symbol  Symbol   `json:"symbol"`
	Strokes []Stroke `json:"strokes"` // the cheapest first
	Drilled int      `json:"drilled"` // index of the one to practise
}

// Entries returns an Entry for each of Symbols.
func (b *Board) Entries() []Entry {
	out := make([]Entry, len(b.symbols))
	for i, s := range b.symbols {
		out[i] = Entry{s, b.Strokes(s), b.drilled[s].at}
	}
	return out
}

// Entry returns what the board knows about one symbol, which may be a chord of
// several modifiers; false where it cannot produce it.
func (b *Board) Entry(s Symbol) (Entry, bool) {
	all := b.Strokes(s)
	return Entry{s, all, b.drilled[s].at}, len(all) > 0
}
