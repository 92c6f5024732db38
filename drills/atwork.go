package drills

import (
	"time"

	"underlay/drills/board"
)

// keyAtWork lets a wrong symbol stand. What follows is aligned with the line
// by looking back one symbol, so that one key too many, one left out or two
// exchanged do not make the rest of the line wrong.
func (g *Grader) keyAtWork(got board.Symbol, at time.Time) Outcome {
	if got == board.Backspace && !g.wants(got) {
		return g.erase(at)
	}
	if g.next >= len(g.drill.Keys) {
		return g.beyond(got, at)
	}
	g.entered++
	if i, next, ok := g.aligned(got); ok {
		g.attempt(i, got, true, at)
		g.stand(got, false, i)
		g.advance(next)
		return Outcome{Right: true}
	}
	return g.wrongAtWork(got, at)
}

func (g *Grader) wants(s board.Symbol) bool {
	return g.next < len(g.drill.Keys) && g.drill.Keys[g.next].Arrives() == s
}

// wrongAtWork books a wrong symbol for the Ask that was waited for. What adds
// nothing to a text does not stand.
func (g *Grader) wrongAtWork(got board.Symbol, at time.Time) Outcome {
	i := g.next
	slip := g.attempt(i, got, false, at)
	if _, ok := got.Rune(); ok {
		g.stand(got, true, i)
		g.advance(i + 1)
	}
	return Outcome{Wrong: true, Slip: slip}
}

// beyond takes a key when the whole line is typed and its last symbol wrong:
// Enter leaves it so, everything else stands as one too many.
func (g *Grader) beyond(got board.Symbol, at time.Time) Outcome {
	g.lose(at)
	if got == board.Enter {
		g.left = true
		return Outcome{Right: true}
	}
	g.entered++
	if _, ok := got.Rune(); ok && len(g.line) < 2*len(g.drill.Keys)+8 {
		g.stand(got, true, -1)
	}
	return Outcome{Wrong: true, Slip: Slip{Kind: OtherSlip, Got: got}}
}

// aligned returns the Ask that got stands for, if it is right, and the one
// that follows: got is what was waited for, or the wrong symbol before it
// explains it.
func (g *Grader) aligned(got board.Symbol) (i, next int, ok bool) {
	if g.wants(got) {
		return g.next, g.next + 1, true
	}
	last := g.lastWrong()
	if last == nil {
		return 0, 0, false
	}
	i = last.target
	early := g.symbolAt(i+1) == last.Symbol
	switch {
	case got == g.symbolAt(i) && early: // the two were exchanged
		return i, i + 2, true
	case got == g.symbolAt(i): // one too many
		return i, i + 1, true
	case got == g.symbolAt(i+2) && early: // one was left out
		return i + 2, i + 3, true
	}
	return 0, 0, false
}

// lastWrong returns the entry before the cursor if it stands, wrong, for the
// Ask before the one that is waited for; else nil.
func (g *Grader) lastWrong() *entry {
	if len(g.line) == 0 {
		return nil
	}
	last := &g.line[len(g.line)-1]
	if !last.Wrong || last.target < 0 || last.target != g.next-1 {
		return nil
	}
	return last
}

// symbolAt returns what answers the Ask of index i, "" beyond the end.
func (g *Grader) symbolAt(i int) board.Symbol {
	if i >= len(g.drill.Keys) {
		return ""
	}
	return g.drill.Keys[i].Arrives()
}

// erase takes back the symbol before the cursor. It is repair where something
// wrong stands; where all is right, the Backspace itself is the wrong key.
func (g *Grader) erase(at time.Time) Outcome {
	g.fixes++
	if len(g.line) == 0 {
		return Outcome{Wrong: true, Slip: g.attempt(g.next, board.Backspace, false, at)}
	}
	out := Outcome{Erased: true}
	switch {
	case !g.stands():
		out.Wrong, out.Slip = true, g.attempt(g.next, board.Backspace, false, at)
	case g.running(board.Backspace, at):
		g.lose(at)
	default:
		g.try(Try{Index: -1, Ask: g.backspace(), Got: board.Backspace, Repair: true}, at)
	}
	last := len(g.line) - 1
	g.advance(g.line[last].before)
	g.line = g.line[:last]
	return out
}

// stands tells whether something wrong stands on the line.
func (g *Grader) stands() bool {
	for _, e := range g.line {
		if e.Wrong {
			return true
		}
	}
	return false
}

func (g *Grader) backspace() Ask {
	ask := Ask{Symbol: board.Backspace}
	if g.o.Board != nil {
		ask.Stroke, _ = g.o.Board.Drilled(board.Backspace)
	}
	return ask
}
