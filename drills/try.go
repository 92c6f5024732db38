package drills

import (
	"time"

	"underlay/drills/board"
)

// Treatment says what a wrong key does.
type Treatment int

// The treatments of wrong keys.
const (
	Wait     Treatment = iota // the cursor stays until the right key comes
	AsAtWork                  // the wrong key stands, and Backspace takes it back
)

func (t Treatment) String() string { return [...]string{"wait", "as-at-work"}[t] }

// LongPause is the gap between two keys beyond which it is no latency but a
// pause: the person looked away.
const LongPause = 3 * time.Second

// Try is the first attempt at one stroke. Later attempts at the same stroke
// are repair, and their time is in Lost. The sum of MS and Lost over the
// tries of a drill is the time from when it was shown to the last key.
type Try struct {
	Index      int // of the Ask in Drill.Keys; -1 for a Backspace that mends
	Ask        Ask
	Got        board.Symbol
	Wrong      bool
	MS         float64 // latency in milliseconds; 0 with Paused
	Lost       float64 // milliseconds until the next latency began: repair, pauses
	First      bool    // first of the drill: reading it is in the latency
	AfterSlip  bool    // the stroke before went wrong
	Helped     bool    // the legend was lit
	Paused     bool    // a pause, lost focus or a held key lies before it: no latency
	Switch     bool    // another layer or level than the stroke before
	SameFinger bool    // the finger of the stroke before, on another key
	Repair     bool    // a Backspace that mends
	Slip       Slip    // zero where the attempt was right
}

// Outcome says what one key event did.
type Outcome struct {
	Right   bool // the key asked for
	Wrong   bool
	Erased  bool // a Backspace took back what stood before the cursor
	Ignored bool // auto-repeat of a held key, or a key after the end
	Done    bool // the drill is over
	Slip    Slip // with Wrong
}

// Typed is one symbol that stands on the line; under Wait, one that was
// accepted.
type Typed struct {
	Symbol board.Symbol
	Wrong  bool
}
