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
// before the session under way is in what it has shown since. On the other board nothing is
// taken to be lost.
func (m *side) unsettled(p place, before, gap float64) float64 {
	if p.board != 0 {
		return 0
	}
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

// shared is how much surer a stroke is than the sum of its terms tells, since its
// own term makes up for errors in those that it shares with others. A diagonal covariance
// does not see that. It goes with the share of what was not known of the stroke that is known by now.
func (m *side) shared(id int, p place) float64 {
	v := m.Board[p.board].Var + m.Layer[p.layer].Var + m.Finger[p.finger].Var + m.Row[p.row].Var
	return v * math.Max(0, 1-m.Own[id].Var/m.prior.own.Var)
}

const (
	driftDays = 120  // the longest time away that makes a stroke less sure
	youngFor  = 10.0 // tries after which what the next one may change is down to half
	calmFor   = 60.0 // tries after which what a day may change is down to half
)

// drift adds the uncertainty that a stroke gathers before a try: for the days
// since the last one, and for what the try itself may change. Both are most
// where there was little practice, for it is there that strokes differ in how fast they are learned.
func (m *side) drift(id int, p place, days, tries float64) {
	t, l := &m.Own[id], &m.Layer[p.layer]
	t.Var += m.overDays(math.Min(days, driftDays), tries) + m.prior.perTry + m.prior.perFirst/(1+tries/youngFor)
	t.Var = math.Min(t.Var, m.prior.maxItem)
	l.Var = math.Min(l.Var+m.prior.perTryLayer, m.prior.maxLayer)
}

// overDays is the variance that days without a stroke add to its own term: months
// tell less of what is left than their days would one by one.
func (m *side) overDays(days, tries float64) float64 {
	return days * (m.prior.perDay + m.prior.perDay2*days + m.prior.perDayYoung/(1+tries/calmFor))
}

// settle makes what was lost over a gap part of the stroke's own level.
func (m *side) settle(id int, gap float64) {
	m.Own[id].Mean += m.Forget.Mean * gap
}
