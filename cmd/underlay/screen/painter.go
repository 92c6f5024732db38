package screen

import (
	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/session"
)

// painter draws views and sends to the terminal what has changed.
type painter struct {
	screen  tcell.Screen
	theme   theme
	sheet   sheet // what is to be shown
	shown   sheet // what is shown
	places  places
	repaint bool // all of it is to be sent
	open    []at // cells that are not locked
}

// at is a cell's place in the window.
type at struct{ x, y int }

func newPainter(s tcell.Screen, t theme) painter {
	return painter{screen: s, theme: t, repaint: true}
}

// paint shows a view.
func (p *painter) paint(v session.View) {
	w, h := p.screen.Size()
	p.sheet.resize(w, h)
	p.sheet.clear()
	draw(&p.sheet, v, p.theme.plainText, &p.places)
	p.flush()
}

// flush sends what differs from what is shown. Cells that stay are locked:
// tcell looks at each cell of the window each time, and is done with those at once.
func (p *painter) flush() {
	p.repaint = p.repaint || p.shown.w != p.sheet.w || p.shown.h != p.sheet.h
	if p.repaint {
		p.shown.resize(p.sheet.w, p.sheet.h)
		clear(p.shown.cells)
		p.screen.LockRegion(0, 0, p.sheet.w, p.sheet.h, false)
		p.screen.Clear()
	}
	changed := p.repaint
	for y := range p.sheet.h {
		if p.repaint || p.sheet.used[y] || p.shown.used[y] {
			changed = p.flushRow(y) || changed
		}
	}
	changed = p.flushCursor() || changed
	switch {
	case p.repaint:
		p.screen.Sync()
	case changed:
		p.screen.Show()
	}
	p.lock()
}

// lock locks the cells that were sent.
func (p *painter) lock() {
	if p.repaint {
		p.screen.LockRegion(0, 0, p.sheet.w, p.sheet.h, true)
		p.repaint = false
	}
	for _, c := range p.open {
		p.screen.LockRegion(c.x, c.y, 1, 1, true)
	}
	p.open = p.open[:0]
}

// flushRow sends the cells of a row that differ, and tells whether any did.
func (p *painter) flushRow(y int) (changed bool) {
	now, shown := p.sheet.row(y), p.shown.row(y)
	p.shown.used[y] = p.sheet.used[y]
	for x, c := range now {
		if c == shown[x] {
			continue
		}
		shown[x], changed = c, true
		if c.text != "" {
			p.screen.LockRegion(x, y, 1, 1, false)
			p.open = append(p.open, at{x, y})
			p.screen.Put(x, y, c.text, p.theme.styles[c.look])
		}
	}
	return changed
}

// flushCursor puts the cursor in place, and tells whether it was elsewhere.
func (p *painter) flushCursor() bool {
	if p.sheet.cx == p.shown.cx && p.sheet.cy == p.shown.cy && !p.repaint {
		return false
	}
	p.shown.cx, p.shown.cy = p.sheet.cx, p.sheet.cy
	if p.sheet.cx < 0 {
		p.screen.HideCursor()
	} else {
		p.screen.ShowCursor(p.sheet.cx, p.sheet.cy)
	}
	return true
}
