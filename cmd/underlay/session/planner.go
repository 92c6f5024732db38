package session

import (
	"time"

	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// Planner decides what is practised, makes the drills, and knows how far the
// person is. Package course implements it. A board is named by its index: 0 is
// the one being learned, 1 the other, if there is one.
type Planner interface {
	// Boards returns the boards of the sitting, one or two.
	Boards() []*board.Board
	// Plan returns what a sitting of some length holds. It starts the plan
	// that Next follows, and may be called again, also only to show it.
	Plan(now time.Time, length time.Duration) Plan
	// Next returns the next task; left is what remains of the sitting's time.
	// It returns false when the sitting is over.
	Next(now time.Time, left time.Duration) (Task, bool)
	// Observe learns from a drill as it was recorded.
	Observe(d journal.Drill)
	// Standing says how well the stroke that is drilled for a symbol is known.
	Standing(board int, s board.Symbol, at time.Time) Standing
	// Past sums up earlier sittings.
	Past(now time.Time) Past
	// Gains says what changed between the start of a sitting and now.
	Gains(start, now time.Time) Gains
}

// Plan is what a sitting holds.
type Plan struct {
	Length time.Duration
	Blocks []Block
	Last   string // one line about the last sitting, or ""
}

// Block is a part of a plan.
type Block struct {
	Kind   scheduler.BlockKind
	Board  int
	Length time.Duration
	About  []Reason // the strokes it is for, most important first
	Note   string   // what it is made of, where it is for no stroke in particular
}

// Reason says why a stroke is practised: "6 days ago, about 780 ms".
type Reason struct {
	Symbol board.Symbol
	Words  string
}

// Task is a drill and the block that it belongs to.
type Task struct {
	Block  scheduler.BlockKind
	Board  int
	Drill  drills.Drill
	Wanted []board.Symbol // what it is for; the rest are surroundings
	Unmet  bool           // Wanted are met for the first time: shown, then asked alone, then mixed
}

// Standing says how well a stroke is known.
type Standing struct {
	State scheduler.State
	Level scheduler.Level
}

// Past sums up earlier sittings.
type Past struct {
	Today time.Duration // practised today
	Week  time.Duration // in the last seven days, today with them
	Days  int           // of the last seven, how many with practice
	Ever  bool          // there was any sitting before
}

// Gains is what a sitting changed, where the model is sure.
type Gains struct {
	Quicker []Gain
	Returns []Return // soonest first
	States  []Count  // strokes of the board being learned by state, the base layer aside
}

// Gain is a stroke that got quicker.
type Gain struct {
	Symbol        board.Symbol
	Before, After float64 // median latencies, ms
}

// Return says when strokes come back.
type Return struct {
	Symbols []board.Symbol
	Days    int // from now: 1 is tomorrow
}

// Count is a number of strokes in a state.
type Count struct {
	State scheduler.State
	N     int
}
