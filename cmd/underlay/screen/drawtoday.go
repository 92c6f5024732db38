package screen

import (
	"fmt"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// today draws the plan: each block with its time, and the strokes it is for.
func (p *page) today(v *session.TodayView) {
	y := 2
	p.put(p.margin, y, fmt.Sprintf("%s today", minutes(v.Plan.Length)), strong)
	y += 2
	for _, b := range v.Plan.Blocks {
		if y >= p.bottom-1 {
			p.put(p.margin, y, p.more, plain)
			break
		}
		y = p.block(b, v, y)
	}
	p.below(v, y+1)
}

// Columns of the plan, counted from the margin.
const (
	timeColumn  = 13
	aboutColumn = 20
)

func (p *page) block(b session.Block, v *session.TodayView, y int) int {
	p.put(p.margin, y, string(b.Kind), plain)
	p.put(p.margin+timeColumn, y, clock(b.Length), plain)
	x := p.margin + aboutColumn
	if b.Note != "" || len(b.About) == 0 {
		p.put(x, y, b.Note, plain)
		y++
	}
	for _, r := range b.About {
		if y >= p.bottom-1 {
			return y
		}
		at := p.put(x, y, board.Safe(string(r.Symbol)), strong)
		p.put(max(x+4, at+2), y, r.Words, plain)
		y++
	}
	return y
}

// below writes what is to be said under the plan, as far as there is room.
func (p *page) below(v *session.TodayView, y int) {
	lines := make([]string, 0, 5)
	if v.Plan.Last != "" {
		lines = append(lines, v.Plan.Last)
	}
	if v.Past.Days > 0 {
		lines = append(lines, fmt.Sprintf("Practised on %d of the last 7 days.", v.Past.Days))
	}
	for _, l := range append(lines, v.Caution...) {
		n := p.wrapped(p.margin, y, p.w-2*p.margin, l, plain, false)
		if y+n > p.bottom {
			return
		}
		y += p.wrapped(p.margin, y, p.w-2*p.margin, l, plain, true)
	}
}

// minutes says a length: "8 minutes".
func minutes(d time.Duration) string {
	if n := int(d.Round(time.Minute) / time.Minute); n != 1 {
		return fmt.Sprintf("%d minutes", n)
	}
	return "1 minute"
}

// clock says a length as minutes and seconds: "2:10".
func clock(d time.Duration) string {
	s := int(d.Round(time.Second) / time.Second)
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
