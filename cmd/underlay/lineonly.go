package main

import (
	"slices"
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
	drill  drills.Drill // in hand
}

// Next passes over drills of which nothing is left.
func (p *lineOnly) Next(now time.Time, left time.Duration) (session.Task, bool) {
	const patience = 20
	for range patience {
		t, ok := p.Planner.Next(now, left)
		if !ok {
			break
		}
		p.board = t.Board
		if p.strip(&t); len(t.Drill.Keys) > 0 {
			p.drill = t.Drill
			return t, true
		}
	}
	return session.Task{}, false
}

// strip leaves out what no line can hold.
func (p *lineOnly) strip(t *session.Task) {
	if t.Drill.Kind == drills.Motion {
		t.Drill = p.commands(t.Drill)
	} else {
		t.Drill = p.strokes(t.Drill)
	}
	var wanted []board.Symbol
	for _, s := range t.Wanted {
		if inLine(s) {
			wanted = append(wanted, s)
		}
	}
	t.Wanted = wanted
}

// strokes leaves out single strokes.
func (p *lineOnly) strokes(d drills.Drill) drills.Drill {
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
		out.Also, out.Notes = nil, nil
	}
	return out
}

// commands leaves out whole commands: without its Escape, what follows an
// insertion would be part of its text.
func (p *lineOnly) commands(d drills.Drill) drills.Drill {
	out := d
	out.Keys, out.Prompt, out.Notes, out.Also = nil, nil, nil, nil
	starts := append(d.Groups(), len(d.Keys))
	for i, note := range d.Notes {
		from, to := starts[i], starts[i+1]
		rest := slices.DeleteFunc(slices.Clone(d.Keys[from:to]), func(k drills.Ask) bool { return inLine(k.Symbol) })
		for _, k := range rest {
			p.note(k)
		}
		if len(rest) > 0 {
			continue
		}
		for _, f := range d.Also {
			if f.At >= from && f.At < to {
				f.At += len(out.Keys) - from
				out.Also = append(out.Also, f)
			}
		}
		out.Keys, out.Prompt = append(out.Keys, d.Keys[from:to]...), append(out.Prompt, d.Prompt[from:to]...)
		out.Notes = append(out.Notes, note)
	}
	return out
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
