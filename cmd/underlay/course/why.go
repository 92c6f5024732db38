package course

import (
	"fmt"
	"math"

	"underlay/corpus/code"
	"underlay/drills/board"
	"underlay/scheduler"
)

// Words says in one short line why a stroke is practised.
func (c *Course) Words(a scheduler.About) string {
	w := a.Why
	switch w.Reason {
	case scheduler.Unknown:
		return c.where(a)
	case scheduler.Moved:
		return "moved: " + c.where(a)
	case scheduler.Away:
		return join("last met "+daysAgo(int(math.Round(w.Days))), about(w.MS), c.common(a))
	case scheduler.Slow:
		return fmt.Sprintf("slower than its neighbours: %s against %s", ms(w.MS), ms(w.ClassMS))
	case scheduler.Slips:
		return join(fmt.Sprintf("%s in the last %s", count(w.Slips, "slip"), tries(w.Of)), c.common(a))
	case scheduler.Rare:
		return join("rare, kept within reach", about(w.MS))
	case scheduler.Pull:
		return "still pressed where it was before"
	case scheduler.Lagging:
		return "slower than it was: " + ms(w.MS)
	case scheduler.Check:
		return "to see that it stays: " + ms(w.MS)
	}
	return join(c.common(a), about(w.MS), slipShare(w))
}

// where names the keys of a stroke.
func (c *Course) where(a scheduler.About) string {
	st := c.strokes.all[a.ID]
	return c.config.Boards[st.Board].Words(st.Stroke)
}

// common says where a stroke is common, in the table of the mix that has most
// of it.
func (c *Course) common(a scheduler.About) string {
	if a.Why.PerMille < commonPerMille {
		return ""
	}
	symbol := c.strokes.all[a.ID].Symbol
	if _, text := symbol.Rune(); !text {
		return "common at work"
	}
	return "common in your " + code.Title(c.home(symbol))
}

// commonPerMille is the share of strokes from which on a symbol is called
// common: about that of a bracket.
const commonPerMille = 5

// home names the table of the mix that has most of a symbol.
func (c *Course) home(s board.Symbol) string {
	best, most := "code", 0.0
	for _, p := range c.config.Mix {
		if share := p.Weight * p.Table.Share(string(s)); share > most {
			best, most = p.Table.Name, share
		}
	}
	return best
}

func slipShare(w scheduler.Why) string {
	if w.Tries < 15 || w.ErrShare < .03 {
		return ""
	}
	return fmt.Sprintf("about %.0f %% slips", 100*w.ErrShare)
}

func tries(n int) string {
	if n == 1 {
		return "try"
	}
	return fmt.Sprintf("%d tries", n)
}

func about(latency float64) string { return "about " + ms(latency) }

// ms shows a latency with two figures: more are not known.
func ms(latency float64) string {
	step := 1.0
	for latency/step >= 100 {
		step *= 10
	}
	return fmt.Sprintf("%.0f ms", math.Round(latency/step)*step)
}

func join(parts ...string) string {
	out := ""
	for _, p := range parts {
		switch {
		case p == "":
		case out == "":
			out = p
		default:
			out += ", " + p
		}
	}
	return out
}
