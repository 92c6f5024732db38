package screen

import (
	"fmt"
	"strings"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler"
)

// restLine is one entry of the account: what it is about, and its lines.
type restLine struct {
	name  string
	lines []string
}

// rest draws the account of a sitting. Where there is little room, the blank
// lines between entries go first.
func (p *page) rest(v *session.RestView) {
	entries := p.account(v)
	gap, y := 1, 2
	if p.restLines(entries)+len(entries)-1 > p.bottom-y {
		gap = 0
	}
	for _, e := range entries {
		p.put(p.margin, y, e.name, strong)
		for _, l := range e.lines {
			if y >= p.bottom {
				return
			}
			y += p.wrapped(p.restColumn(e), y, p.w-p.restColumn(e)-p.margin, l, plain, true)
		}
		y += gap
	}
}

// restColumn is where the lines of an entry begin.
func (p *page) restColumn(e restLine) int {
	if e.name == "" {
		return p.margin
	}
	return p.margin + 13
}

func (p *page) restLines(entries []restLine) int {
	n := 0
	for _, e := range entries {
		for _, l := range e.lines {
			n += p.wrapped(0, 0, p.w-p.restColumn(e)-p.margin, l, plain, false)
		}
	}
	return n
}

func (p *page) account(v *session.RestView) []restLine {
	var out []restLine
	add := func(name string, lines ...string) {
		if len(lines) > 0 {
			out = append(out, restLine{name, lines})
		}
	}
	add("practised", fmt.Sprintf("%s, %d strokes", clock(v.Length), v.Strokes))
	var quicker []string
	for _, g := range v.Gains.Quicker {
		quicker = append(quicker, fmt.Sprintf("%s  %.0f %s %.0f ms", board.Safe(string(g.Symbol)), g.Before, p.arrow, g.After))
	}
	add("quicker", p.joined(quicker)...)
	add("slipped", p.slipLines(v)...)
	add("comes back", returnLines(v.Gains.Returns)...)
	add("strokes", stateLine(v.Gains.States)...)
	add("next", v.Next...)
	if !v.Between {
		add("", append(timeLines(v), v.Care...)...)
	}
	return out
}

// joined puts items beside each other as far as a line of the account goes.
func (p *page) joined(items []string) []string {
	const gap = "    "
	room := p.w - p.restColumn(restLine{name: "some"}) - p.margin
	var lines []string
	for _, it := range items {
		if n := len(lines) - 1; n >= 0 && cells(lines[n])+cells(gap)+cells(it) <= room {
			lines[n] += gap + it
			continue
		}
		lines = append(lines, it)
	}
	return lines
}

func (p *page) slipLines(v *session.RestView) []string {
	n := 0
	for _, c := range v.Slips {
		n += c.N
	}
	if v.Strokes == 0 {
		return nil
	}
	if n == 0 {
		return []string{fmt.Sprintf("none of %d strokes", v.Strokes)}
	}
	var kinds []string
	for _, c := range v.Slips {
		kinds = append(kinds, c.Words())
	}
	return append([]string{fmt.Sprintf("%d of %d strokes", n, v.Strokes)}, p.joined(kinds)...)
}

func returnLines(returns []session.Return) []string {
	var out []string
	for _, r := range returns {
		names := make([]string, len(r.Symbols))
		for i, s := range r.Symbols {
			names[i] = board.Safe(string(s))
		}
		out = append(out, strings.Join(names, " ")+"  "+inDays(r.Days))
	}
	return out
}

func inDays(n int) string {
	switch {
	case n <= 0:
		return "later today"
	case n == 1:
		return "tomorrow"
	}
	return fmt.Sprintf("in about %d days", n)
}

func stateLine(counts []session.Count) []string {
	if len(counts) == 0 {
		return nil
	}
	total := 0
	parts := make([]string, 0, len(counts))
	for _, c := range counts {
		total += c.N
	}
	for _, s := range []scheduler.State{scheduler.Steady, scheduler.Building, scheduler.Fading, scheduler.Unmet} {
		for _, c := range counts {
			if c.State == s && c.N > 0 {
				parts = append(parts, fmt.Sprintf("%d %s", c.N, s))
			}
		}
	}
	return []string{fmt.Sprintf("%s, of %d on the layers", strings.Join(parts, ", "), total)}
}

func timeLines(v *session.RestView) []string {
	out := []string{fmt.Sprintf("%s today, %s in the last 7 days.", minutes(v.Today), minutes(v.Week))}
	if v.Unsaved > 0 {
		out = append(out, fmt.Sprintf("Not saved yet: %d. It is tried again.", v.Unsaved))
	}
	return out
}
