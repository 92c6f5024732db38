package scheduler

import (
	"math"
	"time"
)

// Level is what is known of a stroke at some time, in the user's own work,
// warmed up.
type Level struct {
	MS     float64   // median latency
	Lo, Hi float64   // 80 % range of MS
	Err    float64   // chance of a slip, 0 to 1
	Tries  int       // attempts so far
	Last   time.Time // of the last attempt; zero if there was none
}

// z80 standard deviations to both sides hold 80 % of a normal distribution.
const z80 = 1.2815515655446004

// Level returns what is known of a stroke at a time.
func (s *Scheduler) Level(id int, at time.Time) Level {
	if id < 0 || id >= len(s.Items) {
		return Level{}
	}
	e, it := s.estimate(id, seconds(at)), &s.Items[id]
	half := z80 * math.Sqrt(e.lnVar)
	l := Level{MS: math.Exp(e.ln), Lo: math.Exp(e.ln - half), Hi: math.Exp(e.ln + half), Err: e.slip(), Tries: int(it.Tries)}
	if it.Tries > 0 {
		l.Last = clockTime(it.Last)
	}
	return l
}

// estimate is what the model expects of a stroke: mean and variance of the ln
// of its median latency in ms, and of the logit of a slip.
type estimate struct{ ln, lnVar, logit, logitVar float64 }

// slip is the chance of a slip.
func (e *estimate) slip() float64 { return chance(e.logit, e.logitVar) }

func (s *Scheduler) estimate(id int, at float64) (e estimate) {
	it, p := &s.Items[id], s.places[id]
	from := s.heritage(id)
	practised := math.Log(1+it.Tries+from.credit) - 2
	gap, days := it.gapAt(at)
	switches := s.strokes[id].Switch

	in := s.inputs.none()
	s.Speed.skill(in, id, p, practised, gap)
	in.add(&s.Speed.Context[p.board][afterSwitch], switches)
	in.add(&s.Speed.Form[p.board], s.Speed.prior.lasting)
	e.ln, e.lnVar = in.sum()
	e.lnVar -= s.Speed.shared(id, p)
	e.ln += from.ln
	e.lnVar += s.Speed.overDays(days, it.Tries) - s.Speed.unsettled(p, it.Gap, gap)
	e.lnVar = math.Max(e.lnVar, s.Speed.Own[id].Var) // both corrections are estimates: they leave no less than that
	e.lnVar *= 1 + it.Scatter                        // what is found at times, and looked for at others, is known less

	in.none()
	s.Slips.skill(in, id, p, practised, gap)
	in.add(&s.Slips.Context[p.board][afterSwitch], switches)
	e.logit, e.logitVar = in.sum()
	e.logit += from.logit
	e.logitVar += s.Slips.overDays(days, it.Tries) - s.Slips.unsettled(p, it.Gap, gap)
	return e
}

// gapAt returns ln(1+days away) that a try at a time would meet, and the days
// themselves, driftDays at most.
func (it *item) gapAt(at float64) (gap, days float64) {
	if it.Tries == 0 || at-it.Last <= away {
		return it.Gap, 0
	}
	days = math.Min((at-it.Last)/day, longestDays)
	return it.Gap + math.Log1p(days), math.Min(days, driftDays)
}
