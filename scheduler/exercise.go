package scheduler

import (
	"math"
	"time"
)

// Exercise is a sequence of strokes to type in one go.
type Exercise struct {
	Block  BlockKind
	Board  int
	Items  []int // ids of strokes of the board; 1 to 120
	Line   int   // index of the line in the pool given to New, or -1
	Wanted []int // the strokes that it is for; the others are their surroundings
	Unmet  bool  // the wanted strokes are shown for the first time
}

const (
	longestExercise = 50                     // strokes, when it is woven
	exerciseTime    = 40 * time.Second       // at most
	shortestTime    = 500 * time.Millisecond // that is still used
	leastTime       = 4 * time.Second        // for a block to go on
	newAtOnce       = 3
	newTwice        = 1
)

// Next returns the next exercise, or false when the session is over. left is
// what remains of the session's time. Every block gets an exercise at least,
// as long as time is left. Without Begin, a session of length left begins.
func (s *Scheduler) Next(now time.Time, left time.Duration) (Exercise, bool) {
	if left < shortestTime {
		return Exercise{}, false
	}
	t := &s.sitting
	if t.plan.Blocks == nil {
		s.Begin(now, left)
	}
	elapsed := max(t.length-left, 0)
	for range len(t.plan.Blocks) + 1 {
		rest, ok := t.turn(elapsed)
		if !ok {
			break
		}
		if e, ok := s.exercise(t.plan.Blocks[t.at].Kind, now, min(rest, left)); ok {
			t.served = true
			return e, true
		}
		t.skip()
	}
	return s.exercise(ComingBack, now, left)
}

// turn goes to the block whose turn it is, and returns what remains of its time.
func (t *sitting) turn(elapsed time.Duration) (time.Duration, bool) {
	var end time.Duration
	for k, b := range t.plan.Blocks {
		end += b.Length
		if k < t.at {
			continue
		}
		if k == t.at && t.served && end-elapsed < max(b.Length/8, leastTime) && k+1 < len(t.plan.Blocks) {
			t.skip()
			continue
		}
		return max(end-elapsed, leastTime), true
	}
	return 0, false
}

func (t *sitting) skip() { t.at, t.served = t.at+1, false }

// exercise makes one for a block with that much time left.
func (s *Scheduler) exercise(k BlockKind, now time.Time, left time.Duration) (Exercise, bool) {
	board := wish{kind: k}.board()
	s.price(board, now)
	at := seconds(now)
	s.lookAhead()
	e := Exercise{Block: k, Board: board, Line: -1}
	switch k {
	case WarmUp:
		s.chooseLine(&e, left, at, func(ids []int) float64 { _, ms := s.gain(ids, restMS, at); return -ms / float64(len(ids)) })
	case Lines:
		s.chooseLine(&e, left, at, func(ids []int) float64 { v, _ := s.gain(ids, restMS, at); return v })
	case Probe:
		s.chooseLine(&e, left, at, nil)
	case Upkeep:
		s.chooseLine(&e, left, at, s.lagging(at))
	case NewStrokes:
		s.introduce(&e, left, at)
	case Switching:
		e.Wanted = s.pick(s.count(left), at, s.inLayer)
		e.Items = s.weave(e.Wanted, at, 1)
	default:
		e.Wanted = s.pick(s.count(left), at, s.returns)
		e.Items = s.weave(e.Wanted, at, 0)
	}
	if len(e.Items) == 0 && board == 1 {
		e.Items = s.pick(3*s.count(left), at, func(id int) bool { return s.drilled(id, 1) })
	}
	return e, len(e.Items) > 0
}

// count is how many picked strokes fit a time, each with two neighbours.
func (s *Scheduler) count(left time.Duration) int {
	ms := float64(min(left, exerciseTime).Milliseconds())
	return int(math.Min(math.Max(ms/math.Max(s.sitting.worth.mean, 100), 6), longestExercise) / 3)
}

// chooseLine takes the best of a few lines of the pool, or any one without a measure. Lines that last
// much longer than what is left are taken only when there is no other.
func (s *Scheduler) chooseLine(e *Exercise, left time.Duration, now float64, by func(ids []int) float64) {
	usable := s.pool.usable[e.Board]
	if len(usable) == 0 {
		return
	}
	clear(s.sitting.planned)
	top := math.Inf(-1)
	for range candidates {
		n := usable[s.sitting.rng.IntN(len(usable))]
		ids, whole := s.pool.line(n, e.Board)
		v := 0.0
		if by != nil {
			v = by(ids)
		}
		if _, ms := s.gain(ids, 0, now); ms > 1.15*float64(left.Milliseconds()) {
			v = -ms // a real measure of a time is never as low
		}
		if v > top {
			top, e.Items, e.Line = v, ids, n
			if !whole {
				e.Line = -1
			}
		}
	}
}

// lagging is the measure of lines for the other board: none, so that they are a
// fair sample, unless it lags.
func (s *Scheduler) lagging(now float64) func(ids []int) float64 {
	if !s.Upkeep.Lagging {
		return nil
	}
	return func(ids []int) float64 { v, _ := s.gain(ids, restMS, now); return v }
}

// introduce shows a few strokes for the first time: each alone, then mixed with
// each other and with what comes back, woven into code. When all have been
// shown, those that are still young are asked again.
func (s *Scheduler) introduce(e *Exercise, left time.Duration, now float64) {
	fresh := s.foremost(newAtOnce, s.isNew)
	if e.Unmet = len(fresh) > 0; !e.Unmet {
		fresh = s.foremost(newAtOnce, s.isYoung)
	}
	if len(fresh) == 0 {
		return
	}
	e.Wanted = fresh
	mixed := s.pick(max(s.count(left)-newTwice*len(fresh), 0), now, s.returns)
	for range newTwice {
		mixed = append(mixed, fresh...)
	}
	if e.Unmet {
		e.Items = append(e.Items, fresh...)
	}
	e.Items = append(e.Items, s.weave(mixed, now, 0)...)
}

func (s *Scheduler) isYoung(id int) bool {
	n := s.Items[id].Tries
	return s.drilled(id, 0) && s.strokes[id].Layer != 0 && n > 0 && n < steadyTries
}

// lookAhead works out how many strokes the blocks of lines after this one will
// bring, so that the time before them goes to other strokes.
func (s *Scheduler) lookAhead() {
	t := &s.sitting
	t.ahead = 0
	for k := t.at + 1; k < len(t.plan.Blocks); k++ {
		if b := t.plan.Blocks[k]; b.Board == 0 && (b.Kind == Lines || b.Kind == Probe) {
			t.ahead += float64(b.Length.Milliseconds()) / math.Max(t.worth.mean, 100)
		}
	}
}
