package screen

import (
	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// pictureFrom is the width from which keys are drawn; below, words have to do,
// but for a board for one hand.
const pictureFrom = 72

// picture draws the keys between two lines and returns whether they fitted.
func (p *page) picture(b *board.Board, caps []session.Cap, top, bottom int) bool {
	if b == nil || len(caps) == 0 {
		return false
	}
	l, ok := p.places.of(b, p.w-2, bottom-top)
	if !ok || p.w < pictureFrom && l.w > p.w/2 {
		return false
	}
	x0, y0 := (p.w-l.w)/2, top+min(2, max(0, (bottom-top-l.h)/2))
	for _, loud := range []bool{false, true} { // what stands out is drawn over the rest
		for i := range caps {
			if r := l.rects[i]; loud == standsOut(caps[i].Mark) {
				p.cap(x0+r.x, y0+r.y, r.w, l.scale, &caps[i])
			}
		}
	}
	return true
}

// standsOut tells whether a key is part of the stroke that is asked for.
func standsOut(m session.Mark) bool { return m == session.Here || m == session.Hold }

// cap draws one key, w cells wide.
func (p *page) cap(x, y, w int, s scale, c *session.Cap) {
	text, open, shut, l := c.Text, "", "", faint
	switch c.Mark {
	case session.Here:
		open, shut, l = "[", "]", target
	case session.Hold:
		open, shut, l = "<", ">", hold
	case session.Lit:
		l = lit
	case session.Off:
		text = p.off
	case session.Never:
		shut = "!"
	case session.Unseen:
		if cells(text)+2 <= w {
			open, shut = "(", ")"
		}
	}
	room := w - 1 - len(open) - len(shut) // so that neighbours stay apart
	if standsOut(c.Mark) {
		w = max(w, cells(text)+2)
		room = w - 2
	}
	if text == "" && c.Mark != session.Here && c.Mark != session.Hold {
		return
	}
	n := min(cells(text), room)
	at := x + max(0, (w-n-len(open)-len(shut))/2)
	end := x + w
	at = p.putWithin(at, y, end, open, l)
	at = p.putWithin(at, y, min(at+room, end-len(shut)), text, l)
	p.putWithin(at, y, end, shut, l)
	if c.Bar != "" && s.h > 1 {
		p.putWithin(x+max(0, (w-cells(c.Bar))/2), y+1, end, c.Bar, plain)
	}
}
