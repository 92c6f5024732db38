// Package sessiontest has a planner that tests of sittings can foresee: it
// hands out tasks from a list.
package sessiontest

import (
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// Planner hands out Tasks in turn while there is time left.
type Planner struct {
	On        []*board.Board
	ThePlan   session.Plan
	Tasks     []session.Task
	Repeat    bool // the tasks start over
	Standings map[board.Symbol]session.Standing
	Known     session.Standing // of all other symbols
	ThePast   session.Past
	TheGains  session.Gains

	Learned []journal.Drill // what Observe was given
	next    int
}

func (p *Planner) Boards() []*board.Board { return p.On }

func (p *Planner) Plan(_ time.Time, length time.Duration) session.Plan {
	plan := p.ThePlan
	plan.Length = length
	return plan
}

func (p *Planner) Next(_ time.Time, left time.Duration) (session.Task, bool) {
	if p.next == len(p.Tasks) && p.Repeat {
		p.next = 0
	}
	if left <= 0 || p.next >= len(p.Tasks) {
		return session.Task{}, false
	}
	p.next++
	return p.Tasks[p.next-1], true
}

func (p *Planner) Observe(d journal.Drill) { p.Learned = append(p.Learned, d) }

func (p *Planner) Standing(_ int, s board.Symbol, _ time.Time) session.Standing {
	if st, ok := p.Standings[s]; ok {
		return st
	}
	return p.Known
}

func (p *Planner) Past(time.Time) session.Past              { return p.ThePast }
func (p *Planner) Gains(time.Time, time.Time) session.Gains { return p.TheGains }

// Drill returns a drill of symbols that a board has; an unknown one panics.
func Drill(b *board.Board, k drills.Kind, symbols ...board.Symbol) drills.Drill {
	d := drills.Drill{Kind: k}
	for _, s := range symbols {
		st, ok := b.Drilled(s)
		if !ok {
			panic("sessiontest: board " + b.Name + " has no " + string(s))
		}
		d.Keys = append(d.Keys, drills.Ask{Symbol: s, Stroke: st})
		d.Prompt = append(d.Prompt, drills.Cell{Text: drills.KeyName(s), Named: !s.IsCharacter()})
	}
	return d
}

// Line returns a drill of a line of text.
func Line(b *board.Board, k drills.Kind, text string) drills.Drill {
	var symbols []board.Symbol
	for _, r := range text {
		symbols = append(symbols, board.SymbolOf(r))
	}
	return Drill(b, k, symbols...)
}

// Standing returns a standing of a state with a latency and enough tries.
func Standing(s scheduler.State, ms float64) session.Standing {
	st := session.Standing{State: s, Level: scheduler.Level{MS: ms, Lo: .8 * ms, Hi: 1.25 * ms, Tries: 40}}
	if s == scheduler.Unmet {
		st.Level.Tries = 0
	}
	return st
}
