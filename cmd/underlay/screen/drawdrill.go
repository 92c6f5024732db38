package screen

import "underlay/cmd/underlay/session"

// maxRows is how many lines of a prompt are laid out; drills are far shorter.
const maxRows = 64

// flow is a prompt broken into rows.
type flow struct {
	starts [maxRows + 1]int // index of the first cell of each row, then the end
	rows   int
}

// drill draws a drill: what to type, what was typed below it, the target in
// words, and the underlay.
func (p *page) drill(v *session.DrillView) {
	y := p.prompt(v, 2) + 1
	y = p.aim(v, y)
	bottom := p.bottom
	if v.Slip != "" {
		bottom -= p.wrapped(1, 0, p.w-2, v.Slip, slip, false)
		p.wrapped(1, bottom, p.w-2, v.Slip, slip, true)
	}
	if v.Over == nil || p.h > minHeight {
		p.picture(v.Board, v.Keys, y+1, bottom-1)
	}
}

// prompt draws the rows of the prompt around the cursor, each with what was
// typed on the line below, and returns the line after them.
func (p *page) prompt(v *session.DrillView, y int) int {
	f := p.flow(v.Prompt)
	row := 0
	for row < f.rows-1 && len(v.Typed) >= f.starts[row+1] {
		row++
	}
	show := 1
	if p.h >= 24 {
		show = 2
	}
	first := max(0, min(row, f.rows-show))
	for r := first; r < min(first+show, f.rows); r++ {
		p.promptRow(v, f.starts[r], f.starts[r+1], y)
		y += 3
	}
	return y - 1
}

// width is how many cells a cell of the prompt takes, its gap aside.
func (p *page) width(c *session.Cell) int {
	n := cells(p.show(c))
	if p.named(c) {
		n += 2
	}
	return max(1, n)
}

func (p *page) show(c *session.Cell) string { return p.glyphs.text(c) }

const gapWidth = 2

// flow breaks a prompt into rows: where its lines end, and where a row is full
// at a gap or after white space if there is one, else anywhere.
func (p *page) flow(prompt []session.Cell) flow {
	f := flow{rows: 1}
	room := p.w - 2*p.margin - 1
	x, breakAt := 0, 0
	for i := range prompt {
		c := &prompt[i]
		n := p.width(c)
		if c.Gap && x > 0 {
			n += gapWidth
		}
		if i > 0 && (c.Gap || prompt[i-1].Blank) {
			breakAt = i
		}
		if (c.Break || x+n > room) && i > f.starts[f.rows-1] && f.rows < maxRows {
			at := i
			if !c.Break && breakAt > f.starts[f.rows-1] {
				at = breakAt
			}
			f.starts[f.rows] = at
			f.rows++
			x = 0
			for j := at; j < i; j++ {
				x += p.width(&prompt[j])
			}
			n = p.width(c)
		}
		x += n
	}
	f.starts[f.rows] = len(prompt)
	return f
}

// promptRow draws one row of the prompt, and what was typed of it below; behind
// the last row also what was typed too much.
func (p *page) promptRow(v *session.DrillView, from, to, y int) {
	x := p.margin
	for i := from; i < to; i++ {
		c := &v.Prompt[i]
		if c.Gap && i > from {
			x += gapWidth
		}
		if i == len(v.Typed) {
			p.caretAt(x, y+1)
		}
		end := x + p.width(c)
		if i < len(v.Typed) {
			p.typed(x, y+1, end, &v.Typed[i])
		}
		l := plain
		if c.Blank {
			l = faint
		}
		x = p.cell(x, y, end, c, l)
	}
	if to < len(v.Prompt) {
		return
	}
	for i := to; i < len(v.Typed); i++ {
		end := x + p.width(&v.Typed[i])
		p.typed(x, y+1, end, &v.Typed[i])
		x = end
	}
	if len(v.Typed) >= to {
		p.caretAt(x, y+1)
	}
}

func (p *page) caretAt(x, y int) {
	p.cursor(x, y)
	p.set(x, y, p.caret, 1, faint)
}

// typed draws what was typed below a cell of the prompt; what does not fit
// there is only told to be something else.
func (p *page) typed(x, y, end int, c *session.Cell) {
	l := plain
	if c.Wrong {
		l = wrong
	} else if c.Blank {
		l = faint
	}
	if x+p.width(c) > end {
		p.putWithin(x, y, end, "?", l)
		return
	}
	p.cell(x, y, end, c, l)
}

func (p *page) cell(x, y, end int, c *session.Cell, l look) int {
	if !p.named(c) {
		p.putWithin(x, y, end, p.show(c), l)
		return end
	}
	x = p.putWithin(x, y, end, p.open, faint)
	x = p.putWithin(x, y, end, p.show(c), l)
	p.putWithin(x, y, end, p.shut, faint)
	return end
}

// aim draws the stroke that is asked for, in words, or what lies over the
// drill, and returns the line after it.
func (p *page) aim(v *session.DrillView, y int) int {
	if v.Over != nil {
		for _, line := range v.Over {
			y += max(1, p.wrapped(p.margin, y, p.w-2*p.margin, line, strong, true))
		}
		return y
	}
	t := v.Target
	if t.Symbol == "" {
		return y
	}
	l := faint
	if t.Words != "" {
		l = target
	}
	x := p.put(p.margin, y, " ", l)
	x = p.put(x, y, t.Label, l)
	x = p.put(x, y, " ", l)
	if t.Words != "" {
		room := p.w - x - 2 - p.margin
		if cells(t.Words) <= room {
			p.put(x+2, y, t.Words, strong)
		} else {
			y++
			y += p.wrapped(p.margin+2, y, p.w-2*p.margin-2, t.Words, strong, true) - 1
		}
	}
	y++
	if v.Note != "" {
		y += p.wrapped(p.margin, y, p.w-2*p.margin, v.Note, faint, true)
	}
	return y
}
