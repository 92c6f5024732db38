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
	Form     [2]term           // of the session under way, by board
	Away     tally             // of ln(1+days away), in this session
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
		Form:     [2]term{p.form, p.form},
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
		if gap > 0 {
			in.addFixed(&m.Forget, gap)
		}
	}
}

// unsettled is how much surer a stroke is than the sum of its terms tells: what was lost
// before the session under way is in what it has shown since.
func (m *side) unsettled(before, gap float64) float64 {
	return m.Forget.Var * (gap*gap - (gap-before)*(gap-before))
}

// tally is a sum and what it is of.
type tally struct{ Sum, N float64 }

func (t *tally) add(x float64) {
	t.Sum += x
	t.N++
}

// nextSession begins a new session: the form of the last one passes. What of
// it the days away explain goes to the slope of forgetting, once a session, for
// all its tries had the same form; a share of the rest stays.
func (m *side) nextSession() {
	if m.Away.N > 0 && m.Away.Sum > 0 {
		away := input{term: &m.Forget, x: m.Away.Sum / m.Away.N}
		form := m.Form[0]
		gain := away.term.Var * away.x / (away.term.Var*away.x*away.x + m.prior.form.Var + form.Var)
		m.Forget.Mean = math.Max(m.Forget.Mean+gain*form.Mean, 0)
		m.Forget.Var -= gain * away.x * m.Forget.Var
		m.Form[0].Mean -= gain * away.x * form.Mean
	}
	m.Away = tally{}
	for b := range m.Form {
		m.Board[b].Mean += m.prior.lasting * m.Form[b].Mean
		m.Form[b] = m.prior.form
	}
}

// circumstances adds the terms of the context.
func (m *side) circumstances(in *inputs, p place, x *[contexts]float64) {
	in.add(&m.Form[p.board], 1)
	for c := range x {
		in.add(&m.Context[p.board][c], x[c])
	}
}

const (
	driftDays = 120  // the longest time away that makes a stroke less sure
	youngFor  = 20.0 // tries after which a stroke's drift is down to a quarter
)

// drift adds the uncertainty that a stroke gathers before a try: for the days
// since the last one, and for what the try itself may change, which is most
// when it is one of the first.
func (m *side) drift(id int, p place, days, tries float64) {
	t, l := &m.Own[id], &m.Layer[p.layer]
	young := 1 / (1 + tries/youngFor)
	t.Var += m.prior.perDay*math.Min(days, driftDays) + m.prior.perTry + m.prior.perFirst*young*young
	t.Var = math.Min(t.Var, m.prior.maxItem)
	l.Var = math.Min(l.Var+m.prior.perTryLayer, m.prior.maxLayer)
}

// settle makes what was lost over a gap part of the stroke's own level.
func (m *side) settle(id int, gap float64) {
	m.Own[id].Mean += m.Forget.Mean * gap
}
