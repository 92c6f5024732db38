package course

import (
	"cmp"
	"slices"
	"time"

	"underlay/drills/board"
)

// inOrder sorts strokes of old by when they were last met; one that several
// states of a board had counts for the last of them.
func inOrder(missing map[old]time.Time) []old {
	last := map[spelled]old{}
	for o, at := range missing {
		if p, ok := last[o.spelled]; !ok || at.After(missing[p]) || at.Equal(missing[p]) && o.hash > p.hash {
			last[o.spelled] = o
		}
	}
	out := make([]old, 0, len(last))
	for _, o := range last {
		out = append(out, o)
	}
	slices.SortFunc(out, func(a, b old) int {
		return cmp.Or(missing[a].Compare(missing[b]), cmp.Compare(a.board, b.board),
			cmp.Compare(a.symbol, b.symbol), cmp.Compare(a.stroke, b.stroke))
	})
	return out
}

// retire adds a stroke of old with the features that it had on the board
// before; was is nil if that cannot be read, and now serves instead.
func (s *strokes) retire(o old, was, now *board.Board) {
	if was == nil {
		was = now
	}
	st, err := board.ParseStroke(o.stroke)
	if err != nil {
		st = board.Stroke{} // nothing is known of it but its name
	}
	for _, known := range was.Strokes(board.Symbol(o.symbol)) {
		if known.String() == o.stroke {
			st = known
		}
	}
	id := s.add(was, Stroke{Board: o.board, Symbol: board.Symbol(o.symbol), Stroke: st, Retired: true})
	s.spelled[o.spelled] = id
	s.replace(id)
}

// addRetired adds a stroke as it was kept.
func (s *strokes) addRetired(m change) {
	id := len(s.all)
	s.all, s.features = append(s.all, m.Stroke), append(s.features, m.Features)
	s.spelled[spelled{m.Stroke.Board, string(m.Stroke.Symbol), m.Stroke.Stroke.String()}] = id
	s.replace(id)
}

// replace tells the stroke that gives the symbol now what it replaced, and takes
// from it how often the symbol follows another layer. Later calls win.
func (s *strokes) replace(id int) {
	st := s.all[id]
	if now, ok := s.drilled[place{st.Board, st.Symbol}]; ok {
		s.features[now].Was = id
		if s.features[now].Layer == s.features[id].Layer {
			s.features[id].Switch = s.features[now].Switch
		}
	}
}
