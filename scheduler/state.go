package scheduler

import "time"

// State says how a stroke stands.
type State int

const (
	Unmet    State = iota // never asked for
	Building              // being learned
	Steady                // known, and expected to stay so for now
	Fading                // was steady, and is so no longer
)

// String returns the word for the state.
func (s State) String() string {
	if s < Unmet || s > Fading {
		return "unknown"
	}
	return [...]string{"unmet", "building", "steady", "fading"}[s]
}

// State returns how a stroke stands at a time.
func (s *Scheduler) State(id int, at time.Time) State {
	it := s.items[id]
	switch {
	case it.tries == 0:
		return Unmet
	case it.tries < 30 || it.err > .08:
		return Building
	case at.Sub(it.last) > 14*24*time.Hour:
		return Fading
	}
	return Steady
}
