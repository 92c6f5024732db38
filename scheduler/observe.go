package scheduler

import (
	"math"
	"time"
)

// Try is one graded attempt at a stroke, as the journal has it.
type Try struct {
	ID      int
	Prev    int       // id of the stroke before, or -1: unknown, or the first of a line
	At      time.Time // after the stroke
	MS      float64   // latency of the first press
	Wrong   bool
	Pressed int // id of the stroke that came, or -1

	First      bool // first stroke of a line
	AfterSlip  bool // the stroke before was wrong
	Switch     bool // the stroke before was on another layer
	SameFinger bool // the finger of the stroke before, on another key
	Helped     bool // the picture was looked at; no latency
	Paused     bool // the user looked away; no latency
}

// Latencies outside of these, in ms, say nothing of skill: a pause, or two keys
// that came at once.
const (
	shortest = 20.0
	longest  = 3000.0
)

const (
	day          = 86400.0  // seconds
	away         = .1 * day // a longer gap is one between sessions, for a stroke
	longestDays  = 3650.0
	residualClip = .8 // standard deviations
)

// Observe learns from one try. Tries of strokes that do not exist are ignored.
func (s *Scheduler) Observe(t Try) {
	if t.ID < 0 || t.ID >= len(s.Items) {
		return
	}
	now, it, p := seconds(t.At), &s.Items[t.ID], s.places[t.ID]
	s.keepTime(now, p.board)
	s.arrive(t.ID, now)
	x := s.contextOf(&t, it, now)
	practised := it.practised()
	if !t.Helped {
		s.learnSlip(&t, p, practised, &x)
	}
	if !t.Wrong && !t.Helped && !t.Paused && t.MS >= shortest && t.MS <= longest {
		s.learnLatency(&t, p, practised, &x)
	}
	s.remember(&t, it, now)
	it.Standing = s.standing(t.ID, it, now)
}

// seconds returns Unix seconds; unlike UnixNano it takes any time.
func seconds(t time.Time) float64 { return float64(t.Unix()) + float64(t.Nanosecond())/1e9 }

func (it *item) practised() float64 { return math.Log(1+it.Tries+it.Credit) - 2 }

// arrive accounts for the time since the stroke was last met. A clock that
// went back counts as no time.
func (s *Scheduler) arrive(id int, now float64) {
	it, p := &s.Items[id], s.places[id]
	if it.Tries == 0 {
		s.inherit(id)
	}
	days := 0.0
	if it.Tries > 0 && now-it.Last > away {
		s.Speed.settle(id, it.Gap)
		s.Slips.settle(id, it.Gap)
		days = math.Min((now-it.Last)/day, longestDays)
		it.Gap, it.Here = math.Log1p(days), 0
	}
	if p.board == 0 {
		s.Speed.Away.add(it.Gap)
		s.Slips.Away.add(it.Gap)
	}
	s.Speed.drift(id, p, days, it.Tries)
	s.Slips.drift(id, p, days, it.Tries)
}

func (s *Scheduler) learnLatency(t *Try, p place, practised float64, x *[contexts]float64) {
	in := s.inputs.none()
	s.Speed.skill(in, t.ID, p, practised, s.Items[t.ID].Gap)
	s.Speed.circumstances(in, p, x)
	e, v := in.correctValue(math.Log(t.MS), s.Noise.Var, residualClip)
	s.Items[t.ID].scattered(math.Max(e*e-v, 0) / s.Noise.Var)
	s.Noise.observe(e, v)
}

// scattered follows how much the stroke's latencies scatter, from their squared
// residual as a share of the usual noise.
func (it *item) scattered(share float64) {
	const widest, from, slowest, least = 9, 30, .01, -.6
	it.Scatter += (math.Min(share, widest) - 1 - it.Scatter) * math.Max(1/(it.Tries+from), slowest)
	it.Scatter = math.Max(it.Scatter, least)
}

func (s *Scheduler) learnSlip(t *Try, p place, practised float64, x *[contexts]float64) {
	in := s.inputs.none()
	s.Slips.skill(in, t.ID, p, practised, s.Items[t.ID].Gap)
	s.Slips.circumstances(in, p, x)
	in.correctChance(t.Wrong)
}

// remember counts the try.
func (s *Scheduler) remember(t *Try, it *item, now float64) {
	it.Tries++
	it.Here++
	it.Last = now
	it.Recent <<= 1
	if t.Wrong {
		it.Recent |= 1
	}
	s.countPull(t, it)
	s.countTry(s.strokes[t.ID].Board, now)
}

// noise follows the variance of ln ms that no term explains.
type noise struct {
	Var, N float64
}

func newNoise() noise { return noise{Var: .12} }

// observe takes a residual and the variance that the terms' uncertainty gave it.
func (n *noise) observe(e, vari float64) {
	const widest = 2.5 * 2.5
	e2 := math.Min(e*e, widest*(vari+n.Var))
	n.N++
	n.Var += math.Max(1/(n.N+50), .001) * (math.Max(e2-vari, e2/4) - n.Var)
	n.Var = math.Min(math.Max(n.Var, .02), .6)
}
