package scheduler

import (
	"math"
	"time"
)

// policy holds what the choice of strokes is weighed by.
type policy struct {
	even      float64    // share of the weight that goes to all strokes evenly
	evenAfter [2]float64 // tries and sessions of the user, after each of which two thirds of it apply
	settled   float64    // tries of a stroke that halve what one more teaches
	always    float64    // what one more teaches at least
	massed    float64    // tries in a session that halve the worth of one more
	reachable float64    // share of the yardstick that can be reached in the end
	slipFree  float64    // chance of a slip that can be reached
}

func policyFor(a Aim) policy {
	p := policy{even: .12, evenAfter: [2]float64{9000, 20}, settled: 20, always: .002, massed: 6, reachable: .75, slipFree: .012}
	if a == Coverage {
		p.even, p.evenAfter = .35, [2]float64{1000, 3}
	}
	return p
}

// worth prices practice now, by stroke id.
type worth struct {
	rate  []float64 // ms saved in the user's work, for a ms of practice; 0: not drilled
	cost  []float64 // expected ms of one try
	mean  float64   // of the costs, by share of work
	board int
}

// horizon is when practice has to have helped: on the next day. Evening levels flatter.
const horizon = 24 * time.Hour

// price works out the worth of the strokes of a board.
func (s *Scheduler) price(board int, now time.Time) {
	w := &s.sitting.worth
	w.board, w.mean = board, 0
	n, at := 0.0, seconds(now.Add(horizon))
	for id := range s.strokes {
		if s.drilled(id, board) {
			n++
		}
	}
	even := s.even()
	for id := range s.strokes {
		w.rate[id] = 0
		if !s.drilled(id, board) {
			continue
		}
		weight := (1-even)*s.strokes[id].Freq + even/n
		if k := s.Items[id].Tries; k > 0 && k < begun {
			weight += begunShare * even / n * math.Pow(even/s.policy.even, 3)
		}
		w.rate[id], w.cost[id] = s.worthOf(id, at, weight)
		w.mean += s.strokes[id].Freq * w.cost[id]
	}
}

// even is the share of the weight that goes to all strokes evenly. It grows as
// the common ones come into the hands.
func (s *Scheduler) even() float64 {
	after := s.policy.evenAfter
	return s.policy.even * (1 - math.Exp(-s.Clock.All[0]/after[0]-float64(len(s.Points[0]))/after[1]))
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
	left := math.Max(ms-least, .04*ms) + math.Max(slip-p.slipFree, 0)*(repairMS+repairShare*ms)
	learning := 1/(it.Tries+it.Credit+p.settled) + p.always
	t := cost(ms, slip)
	return weight * left * learning / t, t
}

// yard is the yardstick; before the first session what is presumed of it.
func (s *Scheduler) yard() float64 {
	if s.Clock.Yardstick > 0 {
		return s.Clock.Yardstick
	}
	return s.yardstick()
}

// spaced is the share of its worth that a stroke keeps after the practice that
// it has had in this session, with more of it planned.
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

// gain is the worth of typing a sequence, for a ms of the time it takes. rest
// is time that comes with it.
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

// A stroke that was begun is not left at once: until it has had so many tries it
// weighs so many times more than its even share.
const (
	begun      = 6
	begunShare = 3
)
