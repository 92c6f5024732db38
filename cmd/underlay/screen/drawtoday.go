package screen

import (
	"fmt"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler"
)

// today draws the plan: each block with its time, and the strokes it is for.
// Where there is little room, reasons are left out before anything else.
func (p *page) today(v *session.TodayView) {
	p.put(p.margin, 2, fmt.Sprintf("%s today", minutes(v.Plan.Length)), strong)
	y, end := 4, p.bottom-p.below(v, 0, false)-1
	y = p.plan(v.Plan, reasonsFor(v.Plan, end-y), y, end)
	p.below(v, y+1, true)
}

// Columns of the plan, counted from the margin.
const (
	timeColumn  = 13
	aboutColumn = 20
)

// reasonsFor says how many reasons of each block are told in so many lines.
// What comes back and what is new matter most; a block with a note can do
// without.
func reasonsFor(plan session.Plan, lines int) []int {
	told := make([]int, len(plan.Blocks))
	for i, b := range plan.Blocks {
		lines--
		if b.Note == "" {
			told[i] = min(1, len(b.About))
		}
	}
	for _, upTo := range []int{2, 4, 6} {
		for i, b := range plan.Blocks {
			most := upTo
			if b.Kind != scheduler.ComingBack && b.Kind != scheduler.NewStrokes {
				most = 1
			}
			for told[i] < min(most, len(b.About)) && lines > 0 {
				told[i]++
				lines--
			}
		}
	}
	return told
}

// plan draws the blocks, each with some reasons, and returns the line after them.
func (p *page) plan(plan session.Plan, told []int, y, end int) int {
	for i, b := range plan.Blocks {
		if y >= end {
			p.put(p.margin, y, p.more, plain) // the line that is left free below the plan
			break
		}
		p.put(p.margin, y, string(b.Kind), plain)
		p.put(p.margin+timeColumn, y, clock(b.Length), plain)
		if b.Note != "" || told[i] == 0 {
			p.putCut(p.margin+aboutColumn, y, p.w-1, b.Note, plain)
			y++
		}
		for _, r := range b.About[:told[i]] {
			y = p.reason(r, y)
		}
	}
	return y
}

func (p *page) reason(r session.Reason, y int) int {
	x := p.margin + aboutColumn
	at := p.put(x, y, board.Safe(string(r.Symbol)), strong)
	p.putCut(max(x+4, at+2), y, p.w-1, r.Words, plain)
	return y + 1
}

// below writes what is to be said under the plan and returns how many lines
// that takes; without write it only counts.
func (p *page) below(v *session.TodayView, y int, write bool) int {
	from := y
	lines := make([]string, 0, 5)
	if v.Plan.Last != "" {
		lines = append(lines, v.Plan.Last)
	}
	if v.Past.Days > 0 {
		lines = append(lines, fmt.Sprintf("Practised on %d of the last 7 days.", v.Past.Days))
	}
	for _, l := range append(lines, v.Caution...) {
		y += p.wrapped(p.margin, y, p.w-2*p.margin, l, plain, write)
	}
	return y - from
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
