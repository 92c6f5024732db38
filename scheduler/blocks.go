package scheduler

import (
	"sort"
	"time"
)

// about lists the strokes that a block is about.
func (s *Scheduler) about(k BlockKind, length time.Duration, now time.Time) []About {
	var ids []int
	switch k {
	case FirstLook, ComingBack:
		ids = s.foremost(6, s.returns)
	case NewStrokes:
		ids = s.foremost(min(max(int(length/(8*time.Second)), 1), 9), s.isNew)
	case Switching:
		ids = s.foremost(3, s.inLayer)
	case WarmUp:
		ids = s.known(4, now)
	case Upkeep:
		ids = s.slowest(3, now)
	}
	out := make([]About, 0, len(ids))
	for _, id := range ids {
		out = append(out, About{ID: id, State: s.State(id, now), Level: s.Level(id, now), Why: s.Why(id, now)})
	}
	return out
}

// foremost returns the strokes that are worth most, among those that may be.
func (s *Scheduler) foremost(count int, may func(id int) bool) []int {
	return s.first(count, may, func(id int) float64 { return s.sitting.worth.rate[id] })
}

// known returns frequent steady strokes.
func (s *Scheduler) known(count int, now time.Time) []int {
	return s.first(count, func(id int) bool { return s.drilled(id, 0) && s.State(id, now) == Steady },
		func(id int) float64 { return s.strokes[id].Freq })
}

// slowest returns the strokes of the other board that cost most.
func (s *Scheduler) slowest(count int, now time.Time) []int {
	return s.first(count, func(id int) bool { return s.drilled(id, 1) && s.Items[id].Tries > 0 },
		func(id int) float64 { return s.strokes[id].Freq * s.estimate(id, seconds(now)).ln })
}

func (s *Scheduler) first(count int, may func(id int) bool, by func(id int) float64) []int {
	var ids []int
	key := make([]float64, len(s.strokes))
	for id := range s.strokes {
		if may(id) {
			ids = append(ids, id)
			key[id] = by(id)
		}
	}
	sort.SliceStable(ids, func(a, b int) bool { return key[ids[a]] > key[ids[b]] })
	return ids[:min(count, len(ids))]
}

// isNew tells whether a stroke is to be shown in the block for new ones. The
// plain base layer's are met in lines.
func (s *Scheduler) isNew(id int) bool {
	st := &s.strokes[id]
	return s.drilled(id, 0) && s.Items[id].Tries == 0 && (st.Layer != 0 || !st.Text || len(s.pool.usable[0]) == 0)
}

// returns tells whether a stroke may be drilled for what it lacks.
func (s *Scheduler) returns(id int) bool { return s.drilled(id, 0) && !s.isNew(id) }

func (s *Scheduler) inLayer(id int) bool {
	return s.drilled(id, 0) && s.strokes[id].Layer != 0 && s.Items[id].Tries > 0
}

// due counts the new strokes that are worth as much as what comes back: their
// worth is held against that of the strokes that fill an exercise after some
// practice. A part of those that are left is due in any case.
func (s *Scheduler) due() int {
	fresh := s.foremost(len(s.strokes), s.isNew)
	if len(fresh) == 0 {
		return 0
	}
	known := s.foremost(dueAgainst, s.returns)
	limit := 0.0
	if len(known) > 0 {
		limit = dueShare * s.sitting.worth.rate[known[len(known)-1]]
	}
	n := (len(fresh) + dueAtLeast - 1) / dueAtLeast
	for n < len(fresh) && s.sitting.worth.rate[fresh[n]] > limit {
		n++
	}
	return n
}

const (
	dueAgainst = 10
	dueAtLeast = 3 // one of so many a session
	dueShare   = .5
)

// isYoung tells whether a stroke of a layer was met, and not often yet.
func (s *Scheduler) isYoung(id int) bool {
	n := s.Items[id].Tries
	return s.inLayer(id) && n < steadyTries
}
