package standing

import (
	"fmt"
	"math"
	"slices"

	"underlay/scheduler"
)

const (
	leastTries      = 80 // timed, on a board, before its speed means something
	outlookSessions = 10 // practised ones, before anything is said of what is to come
	// apartFrom is the difference of model and probes below which they agree
	// in any case, as a share.
	apartFrom = .10
)

// readiness compares the board being learned with the other one, or, with one
// board alone, its layers with its base layer.
func (w *work) readiness() Readiness {
	r := Readiness{Against: w.against()}
	if r.Needs = w.missing(); r.Needs != "" {
		return r
	}
	learned, yardstick := w.pace(0), w.yard
	if !w.two() {
		learned = w.layersPace()
	}
	r.Known = true
	r.Share = ratio(yardstick, learned)
	if w.two() {
		r.Probe = w.in.Tally.c.probes()
		r.Since = since(w.in.Tally.c.days(w.tail))
		r.Disagree = r.Probe != nil && apart(r.Share, r.Probe.Share)
	}
	r.Outlook, r.OutlookNeeds = w.outlook(yardstick.MS)
	return r
}

// ratio is the speed of learned as a share of that of other.
func ratio(other, learned scheduler.Point) Range {
	sd := math.Hypot(other.SD, learned.SD)
	v := other.MS / learned.MS
	return Range{v, v * math.Exp(-z80*sd), v * math.Exp(z80*sd)}
}

// apart tells whether two figures of the same thing differ by more than their
// noise, and by more than means anything.
func apart(a, b Range) bool {
	d := math.Abs(math.Log(a.Value / b.Value))
	return d > math.Log1p(apartFrom) && d > z80*math.Hypot(a.logSD(), b.logSD())
}

// missing says what is needed before readiness can be told, or nothing.
func (w *work) missing() string {
	for b := range w.in.Boards {
		if needs := w.missingOn(b); needs != "" {
			return needs
		}
	}
	if !w.two() && w.layersPace().MS == 0 {
		return "the mix has nothing on a layer of this board"
	}
	return ""
}

// missingOn says how many strokes are missing before the speed on a board
// means something, or nothing.
func (w *work) missingOn(b int) string {
	s, name := w.in.Tally.c.Sides[b], w.in.Boards[b].Name
	switch {
	case s.Timed >= leastTries:
		return ""
	case s.Timed == 0 && s.Tries >= leastTries:
		return fmt.Sprintf("%d timed strokes on %s are needed: right, unaided, typed key by key", leastTries, name)
	}
	return needed(leastTries-s.Timed, "stroke", "on "+name)
}

// outlook asks for the chance to get as far as four fifths of the other's speed,
// and all of it.
func (w *work) outlook(old float64) ([]Outlook, int) {
	if !w.two() {
		return nil, 0 // one board has no other speed to reach
	}
	course := slices.Clone(w.in.Model.Course(0))
	for i, p := range course {
		course[i] = longer(p, w.tail)
	}
	if n := len(course); n < outlookSessions {
		return nil, outlookSessions - n
	}
	var out []Outlook
	for _, share := range []float64{.8, 1} {
		out = append(out, outlookAt(course, old, share))
	}
	return out, 0
}

func outlookAt(course []scheduler.Point, old, share float64) Outlook {
	target := old / share
	o := Outlook{Share: share, Lo: -1, Median: -1, Hi: -1}
	if now := course[len(course)-1]; now.MS <= target {
		o.Reached, o.Chance, o.Lo, o.Median, o.Hi = true, 1, 0, 0, 0
		return o
	}
	f := scheduler.Forecast(course, old, target)
	if !f.Known {
		return o
	}
	from := float64(len(course) - 1)
	more := func(x float64) int {
		if math.IsInf(x, 1) || math.IsNaN(x) {
			return -1
		}
		return max(1, int(math.Ceil(x-from)))
	}
	o.Chance, o.Lo, o.Median, o.Hi = f.Chance, more(f.Lo), more(f.Median), more(f.Hi)
	return o
}

// since is the day from which on the board being learned has been faster. On
// a day without the other board that one's last figure holds.
func since(days []Day) string {
	var learned, other []float64
	var dates []string
	last := 0.0
	for _, group := range byDate(days) {
		for _, d := range group {
			if !d.Learned {
				last = d.LatencyMS.Value
			}
		}
		for _, d := range group {
			if d.Learned && last > 0 {
				learned, other, dates = append(learned, d.LatencyMS.Value), append(other, last), append(dates, d.Date)
			}
		}
	}
	if i, ok := Crossing(learned, other); ok {
		return dates[i]
	}
	return ""
}

// byDate puts the boards of a day together.
func byDate(days []Day) [][]Day {
	var out [][]Day
	for i, d := range days {
		if i == 0 || d.Date != days[i-1].Date {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], d)
	}
	return out
}

// Crossing returns the index from which on a stays below b, to the end. It
// depends much on what the figures are: where latencies have a long tail, medians
// cross long before means do. Only means tell how long work takes, so that the
// figures given to it are to be means.
func Crossing(a, b []float64) (int, bool) {
	i := len(a)
	for i > 0 && a[i-1] < b[i-1] {
		i--
	}
	return i, i < len(a)
}
