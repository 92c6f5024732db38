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
	Unmet  bool  // the wanted strokes are shown for the first time, and stand first
}

const (
	longestExercise = 50                     // strokes, when it is woven
	exerciseTime    = 40 * time.Second       // at most
	shortestTime    = 500 * time.Millisecond // that is still used
	leastTime       = 4 * time.Second        // for a block to go on
	newAtOnce       = 3                      // strokes that are new in an exercise
)

// Next returns the next exercise, or false when the session is over. left is
// what remains of the session's time. Every block gets an exercise at least, as
// long as there is time for it before the last one. Without Begin, a session of length left begins.
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

// turn goes to the block whose turn it is, and returns what remains of its
// time. When little more is left than for the last block, it is that one.
func (t *sitting) turn(elapsed time.Duration) (time.Duration, bool) {
	var end time.Duration
	last := len(t.plan.Blocks) - 1
	if t.at < last && t.length-elapsed <= t.plan.Blocks[last].Length+leastTime {
		t.at, t.served = last, false
	}
	for k, b := range t.plan.Blocks {
		end += b.Length
		if k < t.at {
			continue
		}
		if t.served && k < last && end-elapsed < max(b.Length/8, leastTime) {
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
	e := Exercise{Block: k, Board: k.board(), Line: -1}
	at := seconds(now)
	s.price(e.Board, now)
	s.lookAhead()
	switch k {
	case WarmUp:
		s.chooseLine(&e, left, at, s.ease)
	case Lines:
		s.chooseLine(&e, left, at, s.worthOfLine)
	case Probe:
		s.chooseLine(&e, left, at, anyLine)
	case Upkeep:
		s.keepUp(&e, left, at)
	case NewStrokes:
		s.introduce(&e, left, at)
	case Switching:
		s.drill(&e, left, at, s.inLayer, 1)
	default:
		s.drill(&e, left, at, s.returns, 0)
	}
	return e, len(e.Items) > 0
}

// drill picks strokes of those that may be, and weaves them into code. Places
// with changes of layer are dearer by switching.
func (s *Scheduler) drill(e *Exercise, left time.Duration, now float64, may func(id int) bool, switching float64) {
	e.Wanted = s.pick(s.count(left), now, may)
	e.Items = s.weave(e.Wanted, now, switching)
}

// count is how many picked strokes fit a time, each with two neighbours.
func (s *Scheduler) count(left time.Duration) int {
	ms := float64(min(left, exerciseTime).Milliseconds())
	return int(math.Min(math.Max(ms/math.Max(s.sitting.worth.mean, 100), 6), longestExercise) / 3)
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
	mixed := s.pick(max(s.count(left)-len(fresh), 0), now, s.returns)
	mixed = append(mixed, fresh...)
	if e.Unmet {
		e.Items = append(e.Items, fresh...)
	}
	e.Items = append(e.Items, s.weave(mixed, now, 0)...)
}

// keepUp takes a line for the other board: any one, so that they are a fair
// sample, unless the board lags; without lines, strokes by their worth.
func (s *Scheduler) keepUp(e *Exercise, left time.Duration, now float64) {
	by := anyLine
	if s.Upkeep.Lagging {
		by = s.worthOfLine
	}
	s.chooseLine(e, left, now, by)
	if len(e.Items) == 0 {
		e.Items = s.pick(3*s.count(left), now, func(id int) bool { return s.drilled(id, 1) })
	}
}
