package scheduler

import (
	"math"
	"time"
)

// State says how a stroke stands.
type State int

const (
	// Unmet strokes were never tried.
	Unmet State = iota
	// Building strokes are being learned: they have not been steady yet.
	Building
	// Steady strokes are, with nine chances of ten, no slower than half above
	// the yardstick (a fifth more in a layer), and slip in few cases.
	Steady
	// Fading strokes were steady. They are no longer, by a clear margin: by what
	// was typed, or because they were not met for so long that one cannot know.
	Fading
)

// String returns the word for the state.
func (s State) String() string {
	if s < Unmet || s > Fading {
		return "unknown"
	}
	return [...]string{"unmet", "building", "steady", "fading"}[s]
}

// Limits of the states. Between entering and leaving lies a margin, so that a
// state does not flicker.
const (
	steadyTries = 12
	steadyRatio = 1.5 // of the yardstick, at the upper end of the 80 % range
	layerRatio  = 1.2 // more in a layer
	leaveRatio  = 1.3 // of that limit
	steadySlip  = .06 // chance
	leaveSlip   = .11
)

// State returns how a stroke stands at a time.
func (s *Scheduler) State(id int, at time.Time) State {
	if id < 0 || id >= len(s.Items) || s.Items[id].Tries == 0 {
		return Unmet
	}
	st := s.Items[id].Standing
	if st == Steady && s.outside(id, seconds(at), leaveRatio, leaveSlip) {
		return Fading
	}
	return st
}

// standing returns the state after a try.
func (s *Scheduler) standing(id int, it *item, now float64) State {
	switch {
	case it.Standing == Steady:
		if s.outside(id, now, leaveRatio, leaveSlip) {
			return Fading
		}
		return Steady
	case it.Tries >= steadyTries && !s.outside(id, now, 1, steadySlip):
		return Steady
	case it.Standing == Fading:
		return Fading
	}
	return Building
}

// outside tells whether a stroke is beyond a limit of latency, given as a
// share of the limit for steady strokes, or of slips.
func (s *Scheduler) outside(id int, at, ratio, slip float64) bool {
	e := s.estimate(id, at)
	limit := ratio * steadyRatio * s.Clock.Yardstick
	if s.strokes[id].Layer != 0 {
		limit *= layerRatio
	}
	return e.ln+z80*math.Sqrt(e.lnVar) > math.Log(limit) || e.slip() > slip
}
