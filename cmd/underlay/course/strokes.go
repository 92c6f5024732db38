package course

import (
	"slices"

	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// Stroke is what a scheduler's id stands for.
type Stroke struct {
	Board   int // index of the board
	Symbol  board.Symbol
	Stroke  board.Stroke
	Retired bool // the board has it no longer, or no longer drills it
}

// place is where a symbol is drilled.
type place struct {
	board  int
	symbol board.Symbol
}

// spelled names a stroke as the journal does.
type spelled struct {
	board          int
	symbol, stroke string
}

// strokes are all strokes of the boards, by id, with their features.
type strokes struct {
	all      []Stroke
	features []scheduler.Stroke
	drilled  map[place]int
	spelled  map[spelled]int
	layers   []layers // of each board
}

// newStrokes numbers the strokes that can be drilled on the boards. Ids follow
// the boards and the order of their symbols, so that they are the same for the
// same boards, mix and keys that are kept. What can be drilled and is never asked
// for by the plan is retired for the scheduler: it is learned from all the same.
func newStrokes(boards []*board.Board, mix *corpus.Table, keeps []board.Symbol) *strokes {
	s := &strokes{drilled: map[place]int{}, spelled: map[spelled]int{}}
	for i, b := range boards {
		s.layers = append(s.layers, layers{})
		for _, symbol := range b.Symbols() {
			if st, ok := b.Drilled(symbol); ok && possible(b, symbol, keeps) {
				id := s.add(b, Stroke{Board: i, Symbol: symbol, Stroke: st})
				s.features[id].Retired = !wanted(symbol, mix)
			}
		}
		s.setShares(i, mix)
	}
	for at, id := range s.drilled {
		other, ok := s.drilled[place{1 - at.board, at.symbol}]
		if ok && !s.features[id].Retired && !s.features[other].Retired {
			s.features[id].Other = other
		}
	}
	return s
}

// add gives a stroke of board b an id and the features that it shares with others.
func (s *strokes) add(b *board.Board, st Stroke) int {
	id := len(s.all)
	f := scheduler.Stroke{Board: st.Board, Other: -1, Was: -1, Retired: st.Retired}
	if k, ok := b.KeyAt(st.Stroke.Final().Position); ok {
		f.Hand, f.Finger, f.Row, f.Col = int(k.Hand), int(k.Finger), int(k.Row), k.Position.Col
	}
	f.Layer = s.layers[st.Board].number(b, st.Stroke)
	s.all, s.features = append(s.all, st), append(s.features, f)
	if !st.Retired {
		s.drilled[place{st.Board, st.Symbol}] = id
	}
	s.spelled[spelled{st.Board, string(st.Symbol), st.Stroke.String()}] = id
	return id
}

// layers numbers the layers of a board with their shift levels: the base
// layer, plain, is 0.
type layers map[string]int

func (l layers) number(b *board.Board, st board.Stroke) int {
	if st.Level == 0 && st.Layer == b.Layers()[0] {
		return 0
	}
	name := st.Layer + "/" + string(rune('0'+st.Level))
	if _, ok := l[name]; !ok {
		l[name] = len(l) + 1
	}
	return l[name]
}

// asked tells whether a symbol is asked for by the plan.
func asked(b *board.Board, s board.Symbol, mix *corpus.Table, keeps []board.Symbol) bool {
	return possible(b, s, keeps) && wanted(s, mix)
}

// possible tells whether a symbol can be drilled on a board: nobody keeps it, and
// what arrives of it tells that it was typed.
func possible(b *board.Board, s board.Symbol, keeps []board.Symbol) bool {
	return !slices.Contains(keeps, s) && drills.Received(answer(b, s))
}

// wanted tells whether the work needs a symbol: a character of ASCII or a key does
// not have to be met in it, other characters and chords have.
func wanted(s board.Symbol, mix *corpus.Table) bool {
	if _, _, chord := s.Chord(); chord || s.IsCharacter() && s > "~" {
		return mix.Symbols()[string(s)] > 0
	}
	return true
}

// answer is the symbol that arrives when the stroke drilled for s is made: s
// itself, or for a key that no computer sees what its position gives on the
// base layer.
func answer(b *board.Board, s board.Symbol) board.Symbol {
	if base, ok := drills.UnseenAnswer(b, s); ok {
		return base
	}
	return s
}

// Answer returns what arrives when the stroke that is drilled for a symbol is
// made.
func (c *Course) Answer(b int, s board.Symbol) board.Symbol { return answer(c.config.Boards[b], s) }
