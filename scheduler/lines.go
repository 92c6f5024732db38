package scheduler

import (
	"math"
	"sort"
	"time"
)

// measure tells how well a line suits; the highest is taken. It is not below 0.
type measure func(ids []int, now float64) float64

// anyLine makes no difference between lines.
func anyLine([]int, float64) float64 { return 0 }

// worthOfLine is what a line saves for the time it takes.
func (s *Scheduler) worthOfLine(ids []int, now float64) float64 {
	v, _ := s.gain(ids, restMS, now)
	return v
}

// ease is how fast a line goes: what the hands know.
func (s *Scheduler) ease(ids []int, now float64) float64 {
	_, ms := s.gain(ids, restMS, now)
	return float64(len(ids)) / ms
}

// candidates is how many lines are looked at.
const candidates = 40

// chooseLine takes the best of a few lines of the pool that fit into what is
// left; when there are none, the one that takes the least time.
func (s *Scheduler) chooseLine(e *Exercise, left time.Duration, now float64, by measure) {
	usable := s.pool.usable[e.Board]
	if len(usable) == 0 {
		return
	}
	clear(s.sitting.planned)
	room := float64(left.Milliseconds()) / s.sitting.stretch
	strokes := room / math.Max(s.sitting.worth.mean, 1)
	fitting := sort.Search(len(usable), func(k int) bool { return float64(len(s.pool.lines[usable[k]])) > strokes })
	usable = usable[:min(max(fitting, candidates), len(usable))]
	top := math.Inf(-1)
	for range candidates {
		n := usable[s.sitting.rng.IntN(len(usable))]
		ids, whole := s.pool.line(n, e.Board)
		v := by(ids, now)
		if ms := s.took(ids); ms > room {
			v = -ms
		}
		if v <= top {
			continue
		}
		top, e.Items, e.Line = v, ids, -1
		if whole {
			e.Line = n
		}
	}
}

// lookAhead works out how many strokes the blocks of lines after this one will
// bring, so that the time before them goes to other strokes.
func (s *Scheduler) lookAhead() {
	t := &s.sitting
	t.ahead = 0
	for k := t.at + 1; k < len(t.plan.Blocks); k++ {
		if b := t.plan.Blocks[k]; b.Kind == Lines || b.Kind == Probe {
			t.ahead += float64(b.Length.Milliseconds()) / math.Max(t.worth.mean, 100)
		}
	}
}
