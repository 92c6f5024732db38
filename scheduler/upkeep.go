package scheduler

import "math"

// upkeep watches the speed of the other board.
type upkeep struct {
	First   float64 // ln ms a stroke after the first tries; 0: not known yet
	Lagging bool    // it has become measurably slower than that
}

// Beyond these the other board starts and stops lagging, in ln ms. The model's
// pace of a board is good to about two hundredths.
const (
	lagFrom = .05
	lagTo   = .02
)

// watch takes the pace after a session in which the other board was typed on.
func (u *upkeep) watch(ln float64) {
	switch {
	case u.First == 0 || math.IsNaN(ln):
	case ln-u.First > lagFrom:
		u.Lagging = true
	case ln-u.First < lagTo:
		u.Lagging = false
	}
}
