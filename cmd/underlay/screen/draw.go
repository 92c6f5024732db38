package screen

import (
	"underlay/cmd/underlay/session"
)

// The smallest window that a sitting is shown in.
const (
	minWidth  = 60
	minHeight = 20
)

func fits(w, h int) bool { return w >= minWidth && h >= minHeight }

// draw draws a view on a sheet. With ascii only ASCII is used.
func draw(s *sheet, v session.View, ascii bool, at *places) {
	if !fits(s.w, s.h) {
		drawTooSmall(s)
		return
	}
	s.ascii = ascii
	p := page{sheet: s, margin: margin(s.w), glyphs: glyphsFor(ascii), places: at}
	p.head(v)
	p.foot(v)
	switch {
	case v.Today != nil:
		p.today(v.Today)
	case v.Drill != nil:
		p.drill(v.Drill)
	case v.Rest != nil:
		p.rest(v.Rest)
	case v.Map != nil:
		p.mapped(v.Map)
	case v.Find != nil:
		p.find(v.Find)
	case v.List != nil:
		p.list(v.List)
	case v.Page != nil:
		p.text(v.Page)
	}
}

// page is a sheet with what all places have in common: one line at the top,
// the notice and the keys at the bottom, and a margin.
type page struct {
	*sheet
	glyphs
	places *places
	margin int
	bottom int // first line below what a place may use
}

// margin is how far text stands from the left edge.
func margin(w int) int {
	if w < 72 {
		return 1
	}
	return 3
}

func (p *page) head(v session.View) {
	p.put(1, 0, v.Title, strong)
	p.putRight(p.w-1, 0, v.Aside, plain)
}

// putRight writes text that ends before column end.
func (p *page) putRight(end, y int, text string, l look) {
	p.put(max(0, end-cells(text)), y, text, l)
}

// putCut writes text that ends before column end, with a sign where it is cut.
func (p *page) putCut(x, y, end int, text string, l look) {
	if x+cells(text) <= end {
		p.put(x, y, text, l)
		return
	}
	at := p.putWithin(x, y, end-cells(p.more), text, l)
	p.putWithin(at, y, end, p.more, l)
}

// foot writes the keys on as many lines as they need, above them those that
// lead elsewhere, and then the notice.
func (p *page) foot(v session.View) {
	p.bottom = p.h
	p.keys(v.Keys, !v.Early)
	p.keys(v.Places, !v.Early)
	p.bottom--
	if v.Notice.Text == "" {
		return
	}
	l := plain
	if v.Notice.Urgent {
		l = slip
	}
	n := p.wrapped(1, p.bottom, p.w-2, v.Notice.Text, l, false)
	p.bottom -= n
	p.wrapped(1, p.bottom, p.w-2, v.Notice.Text, l, true)
	p.bottom--
}

// keys writes keys on the last lines that are free: with a narrower gap between
// them rather than on two lines. Untold keys take their room all the same.
func (p *page) keys(keys []session.Hint, tell bool) {
	const wide, narrow = 3, 2
	gap := wide
	if p.keyLines(keys, wide, 0, false) > 1 {
		gap = narrow
	}
	p.bottom -= p.keyLines(keys, gap, 0, false)
	p.keyLines(keys, gap, p.bottom, tell)
}

// keyLines writes keys from line y on and returns how many lines they take;
// without write it only counts.
func (p *page) keyLines(keys []session.Hint, gap, y int, write bool) int {
	x, lines := 1, min(1, len(keys))
	for _, k := range keys {
		n := cells(k.Key) + 1 + cells(k.Does)
		if x > 1 && x+n > p.w-1 {
			x, lines = 1, lines+1
		}
		if write {
			at := p.put(x, y+lines-1, k.Key, accent)
			p.put(at+1, y+lines-1, k.Does, plain)
		}
		x += n + gap
	}
	return lines
}

// wrapped writes text on lines of a width, broken at spaces, and returns how
// many they are; without write it only counts.
func (p *page) wrapped(x, y, width int, text string, l look, write bool) int {
	n := 0
	for text != "" {
		line, rest := cut(text, width)
		if write {
			p.put(x, y+n, line, l)
		}
		text, n = rest, n+1
	}
	return n
}

// cut cuts text after the last word that fits into width.
func cut(text string, width int) (line, rest string) {
	if cells(text) <= width {
		return text, ""
	}
	at, used, end := 0, 0, 0
	for i, r := range text {
		if r == ' ' {
			at = i
		}
		if used += cells(string(r)); used > width {
			end = i
			break
		}
	}
	if at == 0 {
		return text[:max(1, end)], text[max(1, end):]
	}
	return text[:at], text[at+1:]
}

func drawTooSmall(s *sheet) {
	lines := [...]string{"The window is too small.", "underlay needs 60 x 20", "and waits until it has that.", "Control+c leaves."}
	if s.w < 30 {
		lines = [...]string{"too small", "60 x 20", "needed", ""}
	}
	for i, l := range lines {
		s.put(min(1, s.w/20), i, l, plain)
	}
}
