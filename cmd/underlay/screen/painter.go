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
}

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

// flush sends the cells that differ from what is shown.
func (p *painter) flush() {
	if p.repaint || p.shown.w != p.sheet.w || p.shown.h != p.sheet.h {
		p.shown.resize(p.sheet.w, p.sheet.h)
		clear(p.shown.cells)
		p.screen.Clear()
	}
	changed := p.repaint
	for i, c := range p.sheet.cells {
		if c == p.shown.cells[i] {
			continue
		}
		p.shown.cells[i] = c
		changed = true
		if c.text != "" {
			p.screen.Put(i%p.sheet.w, i/p.sheet.w, c.text, p.theme.styles[c.look])
		}
	}
	if p.sheet.cx != p.shown.cx || p.sheet.cy != p.shown.cy || p.repaint {
		p.shown.cx, p.shown.cy = p.sheet.cx, p.sheet.cy
		changed = true
		if p.sheet.cx < 0 {
			p.screen.HideCursor()
		} else {
			p.screen.ShowCursor(p.sheet.cx, p.sheet.cy)
		}
	}
	switch {
	case p.repaint:
		p.screen.Sync()
	case changed:
		p.screen.Show()
	}
	p.repaint = false
}
