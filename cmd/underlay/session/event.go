package session

import (
	"time"

	"underlay/drills/board"
)

// Event is something that happened outside: a key, time that passed, the
// result of an effect.
type Event interface{ event() }

// Key is a symbol that arrived from the keyboard.
type Key struct {
	Symbol board.Symbol
	At     time.Time // when it was decoded, with the monotonic reading where there is one
	Vague  bool      // At is not good enough for a latency
}

// Tick says that time has passed. One is wanted at [Model.Wake].
type Tick struct{ At time.Time }

// Paste says that text arrived at once instead of being typed.
type Paste struct {
	Runes int
	At    time.Time
}

// Focus says that the window lost the focus or got it back.
type Focus struct {
	In bool
	At time.Time
}

// Fits says whether the window is large enough to practise in, and how wide it
// is.
type Fits struct {
	OK    bool
	Width int // in cells; 0: not known
	At    time.Time
}

// Resumed says that the program had been stopped, and goes on.
type Resumed struct{ At time.Time }

// Saved is the result of a [Record]. A failed one is tried again.
type Saved struct {
	Err error
	At  time.Time
}

// Reported is the result of a [Report]: learning curves, readiness.
type Reported struct {
	About string // what it is of, told beside the title
	Lines []string
	At    time.Time
}

// Configured is the result of a [Configure]: the settings that hold from now
// on, also where an error says that they could not be written. A nil Planner
// leaves the one in use.
type Configured struct {
	Settings Settings
	Planner  Planner
	Err      error
	At       time.Time
}

func (Key) event()        {}
func (Tick) event()       {}
func (Paste) event()      {}
func (Focus) event()      {}
func (Fits) event()       {}
func (Resumed) event()    {}
func (Saved) event()      {}
func (Reported) event()   {}
func (Configured) event() {}

// Stop says that the program has to end, as on a signal: what is in hand is
// recorded, nothing is asked.
type Stop struct{ At time.Time }

func (Stop) event() {}

// Pass says that the person passes over the drill in hand.
type Pass struct{ At time.Time }

func (Pass) event() {}
