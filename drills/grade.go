package drills

import (
	"slices"
	"time"

	"underlay/drills/board"
)

// GraderOptions are what a Grader needs besides the drill.
type GraderOptions struct {
	Treatment Treatment
	Board     *board.Board
	Other     *board.Board // for habit slips; nil with one board alone
	Shown     time.Time    // when the prompt appeared; zero: the first stroke has no latency
}

// Grader grades one drill as it is typed. It has no clock: times come with
// the keys.
type Grader struct {
	drill  Drill
	o      GraderOptions
	line   []entry // what stands
	next   int     // index of the Ask that is waited for
	tried  []bool  // the Asks that had their first attempt
	tries  []Try
	events []event // the last three keys that counted, latest last

	helped, away, slipped bool
	left                  bool // what is wrong at the end was left as it is
	counted               bool // whether the time before the last key can be a latency
	entered, fixes        int  // keystrokes in the input stream: symbols, editing keys
	spent                 time.Duration
}

// entry is one symbol that stands on the line.
type entry struct {
	Typed
	target int // the Ask it stands for; -1: one too many
	before int // what was waited for before it
	timed  bool
}

// event is a key that counted.
type event struct {
	got   board.Symbol
	at    time.Time
	try   int // index of the Try that it made; -1: none
	wrong bool
}

// NewGrader returns a Grader at the start of a drill.
func NewGrader(d Drill, o GraderOptions) *Grader {
	return &Grader{drill: d, o: o, tried: make([]bool, len(d.Keys))}
}

// Key takes one symbol that arrived, with its time.
func (g *Grader) Key(got board.Symbol, at time.Time) Outcome {
	if g.Done() {
		return Outcome{Ignored: true, Done: true}
	}
	if g.held(got, at) {
		return Outcome{Ignored: true}
	}
	g.takeForm(got)
	before := len(g.tries)
	var out Outcome
	if g.o.Treatment == AsAtWork {
		out = g.keyAtWork(got, at)
	} else {
		out = g.keyWait(got, at)
	}
	try := -1
	if len(g.tries) > before {
		try = before
	}
	g.note(event{got, at, try, out.Wrong})
	out.Done = g.Done()
	return out
}

// keyWait keeps the cursor where it is until the right key comes.
func (g *Grader) keyWait(got board.Symbol, at time.Time) Outcome {
	ask := g.drill.Keys[g.next]
	if got == board.Backspace && got != ask.Arrives() && g.tried[g.next] {
		g.fixes++ // the habit of mending; there is nothing to mend
		g.lose(at)
		return Outcome{Ignored: true}
	}
	g.entered++
	right := got == ask.Arrives()
	slip := g.attempt(g.next, got, right, at)
	if !right {
		return Outcome{Wrong: true, Slip: slip}
	}
	g.stand(got, false, g.next)
	g.advance(g.next + 1)
	return Outcome{Right: true}
}

// attempt books one attempt at the Ask of index i: as a Try when it is the
// first, else as repair.
func (g *Grader) attempt(i int, got board.Symbol, right bool, at time.Time) Slip {
	var slip Slip
	if !right {
		slip = Diagnose(g.where(i, got))
	}
	if g.tried[i] {
		g.lose(at)
	} else {
		g.tried[i] = true
		g.try(Try{Index: i, Ask: g.drill.Keys[i], Got: got, Wrong: !right, Slip: slip}, at)
	}
	if !right {
		g.slipped = true
	}
	return slip
}

func (g *Grader) where(i int, got board.Symbol) Where {
	w := Where{Board: g.o.Board, Other: g.o.Other, Asked: g.drill.Keys[i], Got: got}
	if i > 0 {
		w.Prev = g.drill.Keys[i-1]
	}
	if i+1 < len(g.drill.Keys) {
		w.Next = g.drill.Keys[i+1]
	}
	return w
}

// try fills in what a Try's latency depends on, and books it.
func (g *Grader) try(t Try, at time.Time) {
	t.First = len(g.tries) == 0
	t.AfterSlip = g.slipped
	t.Helped = g.helped && !t.Repair
	gap := milliseconds(g.elapse(at))
	switch t.Paused = !g.counted; {
	case g.counted:
		t.MS = gap
	case t.First:
		t.Lost = gap
	default:
		g.tries[len(g.tries)-1].Lost += gap
	}
	if from, ok := g.strokeBefore(t); ok {
		t.Switch = switches(from, t.Ask.Stroke)
		t.SameFinger = sameFinger(g.o.Board, from, t.Ask.Stroke)
	}
	if !t.Repair {
		g.slipped = false
	}
	g.tries = append(g.tries, t)
}

// strokeBefore returns the stroke from which the hands come.
func (g *Grader) strokeBefore(t Try) (board.Stroke, bool) {
	switch {
	case t.First:
		return board.Stroke{}, false
	case t.Repair || t.Index == 0:
		return g.tries[len(g.tries)-1].Ask.Stroke, true
	default:
		return g.drill.Keys[t.Index-1].Stroke, true
	}
}

func switches(from, to board.Stroke) bool {
	return from.Layer != to.Layer || from.Level != to.Level
}

func sameFinger(b *board.Board, from, to board.Stroke) bool {
	if b == nil || from.Final().Position == to.Final().Position {
		return false
	}
	f, ok1 := b.KeyAt(from.Final().Position)
	t, ok2 := b.KeyAt(to.Final().Position)
	return ok1 && ok2 && f.Hand == t.Hand && f.Finger == t.Finger
}

// lose books the time since the last key as no latency.
func (g *Grader) lose(at time.Time) {
	gap := g.elapse(at)
	if len(g.tries) > 0 {
		g.tries[len(g.tries)-1].Lost += milliseconds(gap)
	}
}

// elapse returns the time since the last key, or since the prompt appeared,
// and settles in counted whether it can be a latency. The figures' clock is
// started by the first key.
func (g *Grader) elapse(at time.Time) time.Duration {
	from := g.o.Shown
	if n := len(g.events); n > 0 {
		from = g.events[n-1].at
	}
	gap := max(at.Sub(from), 0)
	if from.IsZero() {
		gap = 0
	}
	g.counted = !from.IsZero() && !g.away && gap <= LongPause
	if g.counted && len(g.events) > 0 {
		g.spent += gap
	}
	g.away = false
	return gap
}

func milliseconds(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

// stand puts a symbol on the line.
func (g *Grader) stand(got board.Symbol, wrong bool, target int) {
	g.line = append(g.line, entry{Typed: Typed{got, wrong}, target: target, before: g.next, timed: g.counted})
}

func (g *Grader) advance(to int) {
	g.next, g.helped = to, false
}

// note keeps the last three keys.
func (g *Grader) note(e event) {
	g.events = append(g.events, e)
	if len(g.events) > 3 {
		g.events = g.events[1:]
	}
}

// Help tells that the legend of the stroke asked for is now lit.
func (g *Grader) Help() { g.helped = true }

// Interrupt tells that the person was away (focus lost, suspended, a paste):
// the latency of the stroke that is waited for does not count. Tries before it
// stand: no later key makes one of them the repetition of a held key.
func (g *Grader) Interrupt() {
	g.away = true
	for i := range g.events {
		g.events[i].got = ""
	}
}

// Done tells whether the drill is over. Under AsAtWork a wrong symbol at the
// very end can still be mended; Enter leaves it as it is.
func (g *Grader) Done() bool {
	if g.next < len(g.drill.Keys) {
		return false
	}
	return g.left || len(g.line) == 0 || !g.line[len(g.line)-1].Wrong
}

// At returns the index of the Ask that is waited for; len(Keys) at the end.
func (g *Grader) At() int { return min(g.next, len(g.drill.Keys)) }

// Asked returns the Ask that is waited for; false when the drill is done.
// Under AsAtWork it is Backspace when all is typed and the last is wrong; a
// wrong symbol within the line stays the person's own choice.
func (g *Grader) Asked() (Ask, bool) {
	switch {
	case g.Done():
		return Ask{}, false
	case g.next >= len(g.drill.Keys):
		return g.backspace(), true
	}
	return g.drill.Keys[g.next], true
}

// Typed returns what stands on the line. The slice belongs to the caller.
func (g *Grader) Typed() []Typed {
	out := make([]Typed, len(g.line))
	for i, e := range g.line {
		out[i] = e.Typed
	}
	return out
}

// Tries returns the first attempts so far, in the order of time. The slice
// belongs to the caller.
func (g *Grader) Tries() []Try { return slices.Clone(g.tries) }

// Drill returns the drill as it is being typed: after an equal form was
// begun, its Keys and Prompt are that form's.
func (g *Grader) Drill() Drill { return g.drill }

// Figures returns the text-entry figures of what was typed so far. Under
// Wait the program mends what is wrong: each wrong key is IF without an F of
// its own, and nothing is INF.
func (g *Grader) Figures() Figures {
	transcribed := make([]board.Symbol, len(g.line))
	timed := 0
	for i, e := range g.line {
		transcribed[i] = e.Symbol
		if i > 0 && e.timed {
			timed++
		}
	}
	f := Classify(g.presented(), transcribed, g.entered, g.fixes)
	f.Timed, f.Seconds = timed, g.spent.Seconds()
	return f
}

// presented returns what should stand on the line so far.
func (g *Grader) presented() []board.Symbol {
	out := make([]board.Symbol, g.At())
	for i := range out {
		out[i] = g.symbolAt(i)
	}
	return out
}
