package scheduler

import (
	"math"
	"time"
)

// policy holds what the choice of strokes is weighed by. Its constants were
// found with simulated typists; within a factor of two they matter little.
type policy struct {
	even      float64    // share of the weight that goes to all strokes evenly
	evenAfter [2]float64 // tries and sessions of the user, after each of which two thirds of that share apply
	begun     float64    // a stroke with fewer tries than this is not left at once:
	finish    float64    // in the end it weighs so many times its even share more
	settled   float64    // tries of a stroke that halve what one more teaches
	always    float64    // what one more teaches at least
	massed    float64    // tries in a session that halve the worth of one more
	away      float64    // worth added by ln(1 + days away), for what faded more than one knows
	reachable float64    // share of the yardstick that can be reached in the end
	slipFree  float64    // chance of a slip that can be reached
}

func policyFor(a Aim) policy {
	p := policy{
		even: .12, evenAfter: [2]float64{20000, 20}, begun: 6, finish: 12, settled: 30, always: .002,
		massed: 6, away: .3, reachable: .75, slipFree: .012,
	}
	if a == Coverage {
		p.even, p.evenAfter = .35, [2]float64{1000, 3}
	}
	return p
}

// worth prices practice now, by stroke id.
type worth struct {
	rate []float64 // ms saved in the user's work, for a ms of practice; 0: not drilled
	cost []float64 // expected ms of one try, repair included
	mean float64   // of the costs, by share of work
}

// horizon is when practice has to have helped: on the next day, for evening
// levels flatter.
const horizon = 24 * time.Hour

// price works out the worth of the strokes of a board.
func (s *Scheduler) price(board int, now time.Time) {
	w, at, n := &s.sitting.worth, seconds(now.Add(horizon)), 0.0
	for id := range s.strokes {
		if s.drilled(id, board) {
			n++
		}
	}
	ripe := s.ripeness()
	w.mean = 0
	for id := range s.strokes {
		w.rate[id] = 0
		if !s.drilled(id, board) {
			continue
		}
		w.rate[id], w.cost[id] = s.worthOf(id, at, s.weight(id, n, ripe))
		w.mean += s.strokes[id].Freq * w.cost[id]
	}
}

// ripeness goes from 0 to 1 as the common strokes come into the hands: only then
// is it time for rare ones.
func (s *Scheduler) ripeness() float64 {
	after := s.policy.evenAfter
	return 1 - math.Exp(-s.Clock.All[0]/after[0]-float64(len(s.Points[0]))/after[1])
}

// weight is what a stroke counts among n: by its share of the user's work, and a
// little evenly, so that none is lost.
func (s *Scheduler) weight(id int, n, ripe float64) float64 {
	even := s.policy.even * ripe
	w := (1-even)*s.strokes[id].Freq + even/n
	if s.Items[id].Tries < s.policy.begun && !s.isNew(id) {
		w += s.policy.finish * even / n * ripe * ripe
	}
	return w
}

// worthOf returns what practice of a stroke saves, and what a try costs.
func (s *Scheduler) worthOf(id int, at, weight float64) (rate, ms float64) {
	e, it, p := s.estimate(id, at), &s.Items[id], &s.policy
	slip := e.slip()
	ms = math.Exp(e.ln)
	least := p.reachable * s.yard()
	if s.strokes[id].Layer != 0 {
		least *= layerRatio
	}
	left := math.Max(ms-least, .1*ms) + math.Max(slip-p.slipFree, 0)*Repair(ms)
	learning := s.quickness(id) * (1/(it.Tries+it.Credit+p.settled) + p.always)
	_, days := it.gapAt(at)
	t := cost(ms, slip)
	return weight * left * learning * (1 + p.away*math.Log1p(days)) / t, t
}

// quickness is how fast the strokes of a layer are learned, beside what is presumed of a
// layer: little where the hands know them already. A layer's slope is half believed.
func (s *Scheduler) quickness(id int) float64 {
	const usual, least = .13, .02
	p := s.places[id]
	if p.board != 0 {
		return 1
	}
	return math.Sqrt(math.Max(-s.Speed.Practice.Mean-s.Speed.OfLayer[p.layer].Mean, least) / usual)
}

// yard is the yardstick; before the first session what is presumed of it.
func (s *Scheduler) yard() float64 {
	if s.Clock.Yardstick > 0 {
		return s.Clock.Yardstick
	}
	return s.yardstick()
}

// spaced is the share of its worth that a stroke keeps after the practice that
// it has had in this session, with what is planned and what lines will bring.
func (s *Scheduler) spaced(id int, planned, now float64) float64 {
	it := &s.Items[id]
	here := it.Here
	if now-it.Last > away {
		here = 0
	}
	if s.strokes[id].Text {
		planned += s.sitting.ahead * s.strokes[id].Freq
	}
	return 1 / (1 + (here+planned)/s.policy.massed)
}

// gain is the worth of typing a sequence, for a ms of the time ms that it
// takes. rest is time that comes with it.
func (s *Scheduler) gain(ids []int, rest, now float64) (gain, ms float64) {
	w, planned := &s.sitting.worth, s.sitting.planned
	sum := 0.0
	ms = rest
	for _, id := range ids {
		sum += w.rate[id] * w.cost[id] * s.spaced(id, planned[id], now)
		ms += w.cost[id]
	}
	return sum / math.Max(ms, 1), ms
}
