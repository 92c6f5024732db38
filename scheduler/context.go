package scheduler

import "math"

// context numbers the circumstances of one try that are no skill of the stroke.
type context int

const (
	afterSwitch     context = iota // the stroke before was on another layer
	afterSameFinger                // the finger of the stroke before, on another key
	atStart                        // first of a line; the two above do not count there
	warmingUp                      // the first minute of a session
	onNewBoard                     // the first half minute after a change of boards
	afterSlip                      // the stroke before was wrong
	onReturn                       // first meeting of the stroke in a session, and a little the second
	contexts
)

const (
	warmUpS   = 45.0 // e-folding times in seconds
	newBoardS = 30.0

	secondReturn = .2 // of the cost of the first try of a session stays for the second
)

// contextOf tells how strongly each circumstance is present in a try.
func (s *Scheduler) contextOf(t *Try, it *item, now float64) (x [contexts]float64) {
	set := func(c context, present bool) {
		if present {
			x[c] = 1
		}
	}
	set(atStart, t.First)
	set(afterSwitch, t.Switch && !t.First)
	set(afterSameFinger, t.SameFinger && !t.First)
	set(afterSlip, t.AfterSlip)
	x[warmingUp] = fade(now-s.Clock.Session, warmUpS)
	if s.Clock.Changed {
		x[onNewBoard] = fade(now-s.Clock.BoardFrom, newBoardS)
	}
	if it.Gap > 0 && it.Here == 0 {
		x[onReturn] = 1
	} else if it.Gap > 0 && it.Here == 1 {
		x[onReturn] = secondReturn
	}
	return x
}

// fade is exp(-t/tau), and nothing when little is left.
func fade(t, tau float64) float64 {
	if t > 6*tau {
		return 0
	}
	return math.Exp(-math.Max(t, 0) / tau)
}
