package screen

import (
	"fmt"

	"underlay/cmd/underlay/capture"
	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// drawCapture draws a step of describing a board.
func drawCapture(s *sheet, v capture.View, ascii bool) {
	if !fits(s.w, s.h) {
		drawTooSmall(s)
		return
	}
	s.ascii = ascii
	p := page{sheet: s, margin: margin(s.w), glyphs: glyphsFor(ascii)}
	frame := session.View{Title: v.Title}
	if v.Total > 0 {
		frame.Aside = fmt.Sprintf("%d of %d keys", v.Done, v.Total)
	}
	for _, h := range v.Hints {
		frame.Keys = append(frame.Keys, session.Hint{Key: h.Key, Does: h.Does})
	}
	p.head(frame)
	p.foot(frame)
	y := 2
	y += p.wrapped(p.margin, y, p.w-2*p.margin, v.Ask, plain, true) + 1
	if v.Words != "" {
		y += p.wrapped(p.margin, y, p.w-2*p.margin, v.Words, strong, true) + 1
	}
	if v.Open {
		p.query(v.Line, y)
		y += 2
	}
	y = p.told(v, y)
	switch {
	case v.Stage == capture.Shape:
		p.shapes(v, y)
	case v.Stage == capture.Review:
		p.review(v, y)
	default:
		p.captured(v.Keys, y)
	}
}

// told writes what is wrong with an answer, and what is to say about a key.
func (p *page) told(v capture.View, y int) int {
	for _, t := range []struct {
		text string
		look look
	}{{v.Wrong, slip}, {v.Note, plain}} {
		if t.text != "" {
			y += p.wrapped(p.margin, y, p.w-2*p.margin, t.text, t.look, true) + 1
		}
	}
	return y
}

func (p *page) shapes(v capture.View, y int) {
	for i, name := range v.Choices {
		l, mark := plain, "  "
		if i == v.Choice {
			l, mark = chosen, "> "
		}
		if y < p.bottom {
			p.put(p.margin, y, mark+name, l)
		}
		y++
	}
}

// review writes what was found in the file, and the file.
func (p *page) review(v capture.View, y int) {
	for _, f := range v.Found {
		if y < p.bottom-3 {
			y += p.wrapped(p.margin, y, p.w-2*p.margin, board.Safe(f.String()), slip, true)
		}
	}
	y++
	for _, line := range v.Source {
		if y >= p.bottom {
			return
		}
		p.putCut(p.margin, y, p.w-1, line, plain)
		y++
	}
}

// captured draws the board with what its keys have so far.
func (p *page) captured(caps []capture.Cap, top int) {
	keys := make([]board.Key, len(caps))
	for i, c := range caps {
		keys[i] = c.Key
	}
	l, ok := choose(keys, p.w-2, p.bottom-top, nil)
	if !ok {
		return
	}
	x0 := (p.w - l.w) / 2
	for i, c := range caps {
		drawn := session.Cap{Text: c.Text, Mark: session.Dim}
		switch {
		case c.Lit:
			drawn.Mark = session.Here
		case c.Held:
			drawn.Mark = session.Hold
		case c.Text == "":
			drawn.Text = p.off
		}
		p.cap(x0+l.rects[i].x, top+l.rects[i].y, l.rects[i].w, l.scale, &drawn)
	}
}
