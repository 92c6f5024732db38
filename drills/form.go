package drills

import (
	"slices"

	"underlay/drills/board"
)

// takeForm puts an equal form in the place of what is asked for, when got is
// not asked for but goes on with that form.
func (g *Grader) takeForm(got board.Symbol) {
	if g.wants(got) || g.next >= len(g.drill.Keys) {
		return
	}
	for i, f := range g.drill.Also {
		if g.goesOn(f, got) {
			g.drill = g.drill.With(i)
			tail := g.tried[f.At+f.Len:]
			g.tried = append(append(slices.Clone(g.tried[:g.next]), make([]bool, f.At+len(f.Keys)-g.next)...), tail...)
			return
		}
	}
}

// goesOn tells whether f has begun as what was typed, and goes on with got.
func (g *Grader) goesOn(f Form, got board.Symbol) bool {
	k := g.next - f.At
	if k < 0 || k >= f.Len || k >= len(f.Keys) || f.Keys[k].Symbol != got {
		return false
	}
	for j := range k {
		if f.Keys[j].Symbol != g.drill.Keys[f.At+j].Symbol {
			return false
		}
	}
	return true
}

// With returns the drill with its equal form of index i put in. The forms that
// are left in it go with the new keys.
func (d Drill) With(i int) Drill {
	f := d.Also[i]
	end := f.At + f.Len
	d.Keys = slices.Concat(d.Keys[:f.At], f.Keys, d.Keys[end:])
	d.Prompt = slices.Concat(d.Prompt[:f.At], f.Prompt, d.Prompt[end:])
	var also []Form
	for j, o := range d.Also {
		switch {
		case j == i:
			continue
		case o.At == f.At:
			o.Len = len(f.Keys)
		case o.At > f.At:
			o.At += len(f.Keys) - f.Len
		}
		also = append(also, o)
	}
	d.Also = also
	return d
}
