package drills

import (
	"slices"
	"time"

	"underlay/drills/board"
)

// A key that is held down sends its symbol again and again. Usual rates are
// 10 to 33 a second after a delay of 200 to 700 ms (common practice); nobody
// strikes one key twice within bounce, and hardly anyone three times with
// both gaps under rapid.
const (
	bounce = 50 * time.Millisecond
	rapid  = 120 * time.Millisecond
)

// held tells whether got is the auto-repeat of a key that is held down, and
// if so takes back the slip that its first repetition made. A symbol that is
// asked for again is always taken, and Backspace may be held to erase.
func (g *Grader) held(got board.Symbol, at time.Time) bool {
	n := len(g.events)
	if n == 0 || g.events[n-1].got != got || got == board.Backspace || g.wants(got) {
		return false
	}
	if at.Sub(g.events[n-1].at) >= bounce && !g.running(got, at) {
		return false
	}
	again := n > 1 && g.events[n-2].got == got
	g.lose(at)
	if again && g.events[n-1].wrong {
		g.retract(g.events[n-1])
	}
	g.events[n-1] = event{got: got, at: at, try: -1}
	g.away = true // the next latency would count from the last repetition
	return true
}

// running tells whether a key now would be the third of the same symbol in
// quick succession, or later.
func (g *Grader) running(got board.Symbol, at time.Time) bool {
	n := len(g.events)
	return n > 1 && got == g.events[n-1].got && got == g.events[n-2].got && at.Sub(g.events[n-1].at) < rapid
}

// retract takes back what a wrong key did: it was no stroke.
func (g *Grader) retract(e event) {
	g.entered--
	if last := len(g.line) - 1; last >= 0 && g.line[last].Wrong && g.line[last].Symbol == e.got {
		g.next = g.line[last].before
		g.line = g.line[:last]
	}
	if e.try != len(g.tries)-1 || e.try < 1 {
		return
	}
	t := g.tries[e.try]
	g.tries = slices.Delete(g.tries, e.try, e.try+1)
	g.tries[e.try-1].Lost += t.MS + t.Lost
	g.tried[t.Index] = false
	g.slipped = g.tries[e.try-1].Wrong
}
