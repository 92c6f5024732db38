package scheduler

import "math"

// side is one of the two halves of the skill model: latency or slips. Both are
// additive in the same terms:
//
//	y = board + layer + finger + row + own
//	  + practice (ln(1+tries) - 2)       on the board being learned
//	  + forget ln(1+days away)           there too, for as long as the session lasts
//	  + context
//
// What a stroke loses over days is told apart from what its first try in a
// session costs (the context onReturn): in people's records the latter is large
// and passes at once.
type side struct {
	prior    priors
	Board    [2]term
	Layer    []term
	Finger   []term
	Row      []term
	Own      []term
	Practice term
	OfLayer  []term
	Forget   term
	Context  [2][contexts]term // by board
}

func newSide(p priors, f features) side {
	m := side{
		prior:    p,
		Board:    p.board,
		Layer:    repeat(p.layer, len(f.plain)),
		Finger:   repeat(p.finger, f.finger),
		Row:      repeat(p.row, f.row),
		Own:      repeat(p.own, len(f.places)),
		Practice: p.practice,
		OfLayer:  repeat(p.practiceOfLayer, len(f.plain)),
		Forget:   p.forget,
		Context:  [2][contexts]term{p.context, p.context},
	}
	for l, plain := range f.plain {
		if plain {
			m.Layer[l].Mean, m.OfLayer[l].Mean = 0, 0
		}
	}
	return m
}

func repeat(t term, n int) []term {
	s := make([]term, n)
	for i := range s {
		s[i] = t
	}
	return s
}

// skill adds the terms of a stroke that no context changes. practised is ln(1+tries) - 2, gap ln(1+days away).
func (m *side) skill(in *inputs, id int, p place, practised, gap float64) {
	in.add(&m.Own[id], 1)
	in.add(&m.Board[p.board], 1)
	in.add(&m.Layer[p.layer], 1)
	in.add(&m.Finger[p.finger], 1)
	in.add(&m.Row[p.row], 1)
	if p.board == 0 {
		in.add(&m.Practice, practised)
		in.add(&m.OfLayer[p.layer], practised)
		in.add(&m.Forget, gap)
	}
}

// circumstances adds the terms of the context.
func (m *side) circumstances(in *inputs, p place, x *[contexts]float64) {
	for c := range x {
		in.add(&m.Context[p.board][c], x[c])
	}
}

// drift adds the uncertainty that a stroke gathers before a try: for the days
// since the last one, and for what the try itself may change.
func (m *side) drift(id int, p place, days float64) {
	t, l := &m.Own[id], &m.Layer[p.layer]
	t.Var = math.Min(t.Var+m.prior.perDay*math.Min(days, 30)+m.prior.perTry, m.prior.maxItem)
	l.Var = math.Min(l.Var+m.prior.perTryLayer, m.prior.maxLayer)
}

// settle makes what was lost over a gap part of the stroke's own level.
func (m *side) settle(id int, gap float64) {
	m.Own[id].Mean += m.Forget.Mean * gap
}
