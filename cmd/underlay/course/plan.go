package course

import (
	"fmt"
	"strings"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/corpus/code"
	"underlay/scheduler"
)

// Plan returns what a sitting of some length holds, in words, and starts the
// plan that Next follows. It may be called again, also only to show it.
func (c *Course) Plan(now time.Time, length time.Duration) session.Plan {
	c.begin, c.before = now, map[int]scheduler.Level{}
	p := session.Plan{Length: length, Last: c.lastTime(now)}
	for _, b := range c.scheduler.Begin(now, length).Blocks {
		block := session.Block{Kind: b.Kind, Board: b.Board, Length: b.Length, Note: c.note(b)}
		for _, a := range b.About {
			if a.State == scheduler.Unmet && (b.Kind == scheduler.FirstLook || b.Kind == scheduler.ComingBack) {
				continue // there is nothing to tell of it yet
			}
			block.About = append(block.About, session.Reason{Symbol: c.strokes.all[a.ID].Symbol, Words: c.Words(a)})
		}
		p.Blocks = append(p.Blocks, block)
	}
	return p
}

// note says what a block is made of, where no stroke of it is named.
func (c *Course) note(b scheduler.Block) string {
	switch b.Kind {
	case scheduler.WarmUp:
		return "what the hands know"
	case scheduler.FirstLook:
		return "single strokes: where do you stand?"
	case scheduler.Lines:
		if len(c.config.Own) > 0 {
			return "of your own code, and others like them"
		}
		return "made of " + c.mixWords()
	case scheduler.Switching:
		return "into the layers and back"
	case scheduler.Upkeep, scheduler.Probe:
		if b.Board < len(c.config.Boards) {
			return c.config.Boards[b.Board].Name + ", " + c.purpose(b.Kind)
		}
	}
	return ""
}

func (c *Course) purpose(k scheduler.BlockKind) string {
	if k == scheduler.Probe {
		return "unaided, for measuring"
	}
	return "so that it does not fade"
}

// mixWords names the tables that the work is made of.
func (c *Course) mixWords() string {
	var names []string
	for _, p := range c.config.Mix {
		names = append(names, code.Title(p.Table.Name))
	}
	switch n := len(names); {
	case n == 0:
		return "nothing yet"
	case n == 1:
		return names[0]
	case n <= 3:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return fmt.Sprintf("%s, %s and %d more", names[0], names[1], len(names)-2)
}

// lastTime sums up the sitting before this one in a line.
func (c *Course) lastTime(now time.Time) string {
	l := c.past.Last
	if l.Strokes == 0 {
		return ""
	}
	when := "Earlier today"
	if days := daysBetween(l.At, now); days > 0 {
		when = "Last time, " + daysAgo(days)
	}
	return fmt.Sprintf("%s: %s, %s.", when, count(l.Strokes, "stroke"), count(l.Slips, "slip"))
}

// daysBetween counts midnights, each time in its own zone: practice late in
// the evening is yesterday's in the morning.
func daysBetween(from, to time.Time) int {
	day := func(t time.Time) time.Time {
		y, m, d := t.Date()
		return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	}
	return int(day(to).Sub(day(from)) / (24 * time.Hour))
}

func daysAgo(days int) string {
	switch {
	case days <= 0:
		return "today"
	case days == 1:
		return "yesterday"
	}
	return fmt.Sprintf("%d days ago", days)
}

func count(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}
