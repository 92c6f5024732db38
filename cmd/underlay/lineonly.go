package main

import (
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills"
	"underlay/drills/board"
)

// lineOnly is a planner whose drills hold what a line of input can hold. The
// rest is kept to be told.
type lineOnly struct {
	session.Planner
	untold []drills.Ask
	told   map[board.Symbol]bool
	board  int
	kind   drills.Kind // of the drill in hand
}

// Next passes over drills of which nothing is left.
func (p *lineOnly) Next(now time.Time, left time.Duration) (session.Task, bool) {
	const patience = 20
	for range patience {
		t, ok := p.Planner.Next(now, left)
		if !ok {
			break
		}
		p.board, p.kind = t.Board, t.Drill.Kind
		if p.strip(&t); len(t.Drill.Keys) > 0 {
			return t, true
		}
	}
	return session.Task{}, false
}

// strip leaves out what no line can hold.
func (p *lineOnly) strip(t *session.Task) {
	d := t.Drill
	out := d
	out.Keys, out.Prompt = nil, nil
	gap := false
	for i, k := range d.Keys {
		gap = gap || d.Prompt[i].Gap
		if !inLine(k.Symbol) {
			p.note(k)
			gap = gap || k.Symbol == board.Enter // what was on two lines stays apart
			continue
		}
		cell := d.Prompt[i]
		cell.Gap, gap = gap, false
		out.Keys, out.Prompt = append(out.Keys, k), append(out.Prompt, cell)
	}
	if len(out.Keys) < len(d.Keys) {
		out.Also, out.Note = nil, ""
	}
	t.Drill = out
	var wanted []board.Symbol
	for _, s := range t.Wanted {
		if inLine(s) {
			wanted = append(wanted, s)
		}
	}
	t.Wanted = wanted
}

func (p *lineOnly) note(k drills.Ask) {
	if p.told == nil {
		p.told = map[board.Symbol]bool{}
	}
	if !p.told[k.Symbol] {
		p.told[k.Symbol] = true
		p.untold = append(p.untold, k)
	}
}

// inLine tells whether a line of input can hold a symbol.
func inLine(s board.Symbol) bool { return s == board.Space || s.IsCharacter() }
