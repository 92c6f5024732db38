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

// LongPause is the gap between two keys from which on it is no latency but a
// pause: the person looked away.
const LongPause = 3 * time.Second

// Try is the first attempt at one stroke. Later attempts at the same stroke
// are repair; their time is in Lost.
type Try struct {
	Index      int // of the Ask in Drill.Keys; -1 for a Backspace that mends
	Ask        Ask
	Got        board.Symbol
	Wrong      bool
	MS         float64 // latency in milliseconds; 0 where the time is no latency (Paused)
	Lost       float64 // ms between this attempt and the moment from which the next one's latency counts
	First      bool    // first of the drill
	AfterSlip  bool    // the stroke before went wrong
	Helped     bool    // the legend was lit
	Paused     bool    // a pause, lost focus or a held key lies in between
	Switch     bool    // another layer than the stroke before
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

// GraderOptions are what a Grader needs besides the drill.
type GraderOptions struct {
	Treatment Treatment
	Board     *board.Board
	Other     *board.Board // for habit slips; nil with one board alone
	Shown     time.Time    // when the prompt appeared; zero: the first stroke has no latency
}

// Typed is one symbol that stands on the line, or, under Wait, was accepted.
type Typed struct {
	Symbol board.Symbol
	Wrong  bool
}

// Grader grades one drill as it is typed. It knows no clock: times come with
// the keys.
type Grader struct {
	drill Drill
	o     GraderOptions
	typed []Typed
	tries []Try
	last  time.Time
}

// NewGrader returns a Grader at the start of a drill.
func NewGrader(d Drill, o GraderOptions) *Grader {
	return &Grader{drill: d, o: o, last: o.Shown}
}

// Key takes one symbol that arrived, with its time.
func (g *Grader) Key(got board.Symbol, at time.Time) Outcome {
	if g.Done() {
		return Outcome{Ignored: true, Done: true}
	}
	return Outcome{Wrong: true}
}

// Help tells that the legend of the stroke asked for is now lit.
func (g *Grader) Help() {}

// Interrupt tells that the person was away (focus lost, suspended, a paste):
// the latency of the stroke that is being waited for does not count.
func (g *Grader) Interrupt() {}

// Done tells whether the drill is over.
func (g *Grader) Done() bool { return g.At() >= len(g.drill.Keys) }

// At returns the index of the Ask that is waited for; len(Keys) at the end.
func (g *Grader) At() int { return len(g.typed) }

// Asked returns the Ask that is waited for; false at the end. Under AsAtWork,
// while a wrong symbol stands before the cursor, that is still the next one
// of the line: Backspace is the person's own choice.
func (g *Grader) Asked() (Ask, bool) {
	if g.Done() {
		return Ask{}, false
	}
	return g.drill.Keys[g.At()], true
}

// Typed returns what stands on the line. The slice belongs to the caller.
func (g *Grader) Typed() []Typed { return append([]Typed(nil), g.typed...) }

// Tries returns the first attempts so far, in the order of time. The slice
// belongs to the caller.
func (g *Grader) Tries() []Try { return append([]Try(nil), g.tries...) }

// Drill returns the drill as it is being typed: after an equal form was
// begun, its Keys and Prompt are that form's.
func (g *Grader) Drill() Drill { return g.drill }

// Figures returns the text-entry figures of what was typed so far.
func (g *Grader) Figures() Figures { return Figures{} }
