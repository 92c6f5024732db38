package report

import (
	"math"
	"slices"
	"strings"

	"underlay/cmd/underlay/standing"
)

// ofBoard are the days on the board being learned, or on the other one.
func ofBoard(all []standing.Day, learned bool) []standing.Day {
	return slices.DeleteFunc(slices.Clone(all), func(d standing.Day) bool { return d.Learned != learned })
}

// timedDays are those whose speed is known.
func timedDays(all []standing.Day) []standing.Day {
	return slices.DeleteFunc(slices.Clone(all), func(d standing.Day) bool { return d.LatencyMS.Value <= 0 })
}

// curve is latencies over days, drawn into braille cells.
type curve struct {
	days   []standing.Day
	width  int
	height int
	lo, hi float64
}

func newCurve(days []standing.Day, width, height int) curve {
	c := curve{days: days, width: width, height: height, lo: math.Inf(1), hi: math.Inf(-1)}
	for _, d := range days {
		c.lo, c.hi = min(c.lo, d.LatencyMS.Value), max(c.hi, d.LatencyMS.Value)
	}
	if c.hi-c.lo < .02*c.hi {
		c.hi += .01 * c.hi
		c.lo -= .01 * c.lo
	}
	return c
}

// x is the dot column of a day: the first on the left edge, the last on the right.
func (c curve) x(i int) int {
	first, last := dayOf(c.days[0].Date), dayOf(c.days[len(c.days)-1].Date)
	if !last.After(first) {
		return 0
	}
	at := dayOf(c.days[i].Date).Sub(first).Hours() / last.Sub(first).Hours()
	return int(math.Round(at * float64(2*c.width-1)))
}

func (c curve) y(i int) int {
	return int(math.Round((c.hi - c.days[i].LatencyMS.Value) / (c.hi - c.lo) * float64(4*c.height-1)))
}

// lines draws the curve. Days apart are joined where no more than one lies
// between them, so that breaks can be seen.
func (c curve) lines() []string {
	d := newDots(c.width, c.height)
	for i, day := range c.days {
		d.set(c.x(i), c.y(i))
		if i > 0 && day.Gap <= 1 {
			d.line(c.x(i-1), c.y(i-1), c.x(i), c.y(i))
		}
	}
	return d.lines()
}

// marks is a line with a sign under every day on which the board changed.
func (c curve) marks() string {
	line := []rune(strings.Repeat(" ", c.width))
	found := false
	for i, d := range c.days {
		if d.Changed {
			line[c.x(i)/2], found = '^', true
		}
	}
	if !found {
		return ""
	}
	return strings.TrimRight(string(line), " ")
}
