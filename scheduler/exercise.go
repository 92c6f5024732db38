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
	longestExercise = 100                    // strokes, about, when it is woven
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
	t.watch(left)
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

// watch learns from the last exercise how much longer they take than the model
// expects: people read, rest, and have slow days. What was hardly begun says nothing.
func (t *sitting) watch(left time.Duration) {
	const follow, most = .4, 3.0
	took := float64((t.given - left).Milliseconds())
	if t.expected > 0 && took > t.expected/5 {
		t.stretch += follow * (math.Min(math.Max(took/t.expected, 1/most), most) - t.stretch)
	}
	t.given, t.expected = left, 0
}

// room is the time for an exercise, in ms as the model reckons them.
func (t *sitting) room(left time.Duration) float64 {
	return float64(min(left, exerciseTime).Milliseconds()) / t.stretch
}

// turn goes to the block whose turn it is, and returns what remains of its
// time. When little more is left than for the short blocks at the end, it is theirs.
func (t *sitting) turn(elapsed time.Duration) (time.Duration, bool) {
	if len(t.plan.Blocks) == 0 {
		return 0, false
	}
	if next, part := t.closing(t.length - elapsed); next >= 0 {
		t.at, t.served = next, false
		return max(part, leastTime), true
	}
	var end time.Duration
	last := len(t.plan.Blocks) - 1
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

// closing returns which of the short blocks at the end is due when no more is left
// than they take, and its part of that; or -1. What is late shortens them all;
// when next to nothing is left, the last one has it.
func (t *sitting) closing(left time.Duration) (at int, part time.Duration) {
	const hardly = 5 * time.Second
	at = -1
	first, last := t.at, len(t.plan.Blocks)-1
	if t.served {
		first++
	}
	var take time.Duration
	for k := last; k >= first && t.plan.Blocks[k].Kind.closes(); k-- {
		length := t.plan.Blocks[k].Length
		take += length
		if left <= take+t.least() && (left > hardly || k == last) {
			at, part = k, min(length, time.Duration(float64(left)*float64(length)/float64(take)))
		}
	}
	return at, part
}

// closes tells whether blocks of a kind stand at the end and are short.
func (k BlockKind) closes() bool { return k == Switching || k == Upkeep || k == Probe }

// least is the time that even a short exercise takes.
func (t *sitting) least() time.Duration {
	return max(leastTime, time.Duration(shortestLine*t.worth.mean*t.stretch*float64(time.Millisecond)))
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
	s.sitting.expected = restMS + s.took(e.Items)
	return e, len(e.Items) > 0
}

// took is the time that the model expects a sequence to take, in ms. Drills
// change layers more often than work does.
func (s *Scheduler) took(ids []int) (ms float64) {
	for k, id := range ids {
		st := &s.strokes[id]
		more := -st.Switch
		if k == 0 || s.strokes[ids[k-1]].Layer != st.Layer {
			more++
		}
		ms += s.sitting.worth.cost[id] * (1 + more*s.Speed.Context[st.Board][afterSwitch].Mean)
	}
	return ms
}

// drill picks strokes of those that may be, and weaves them into code. Places
// with changes of layer are dearer by switching.
func (s *Scheduler) drill(e *Exercise, left time.Duration, now float64, may func(id int) bool, switching float64) {
	room := s.sitting.room(left)
	e.Wanted, e.Items = s.weave(s.pick(room, now, may), room, now, switching)
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
	room := s.sitting.room(left)
	mixed := append(s.pick(room-2*s.took(fresh), now, s.returns), fresh...)
	if e.Unmet {
		e.Items = append(e.Items, fresh...)
	}
	_, woven := s.weave(mixed, math.Inf(1), now, 0)
	e.Items = append(e.Items, woven...)
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
		e.Items = s.pick(s.sitting.room(left), now, func(id int) bool { return s.drilled(id, 1) })
	}
}
