package standing

import (
	"slices"
	"time"

	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// date is a calendar day where it was practised, in days since 1970-01-01 plus one; 0 is none.
type date int32

func dateOf(t time.Time) date {
	y, m, d := t.Date()
	return date(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix()/86400) + 1
}

func (d date) String() string {
	return time.Unix(int64(d-1)*86400, 0).UTC().Format(time.DateOnly)
}

// dayCount is what is kept of one day on one board.
type dayCount struct {
	Date    date
	Board   int
	Name    string // of the board, on that day
	Changed bool
	MS      float64 // practised
	Strokes int
	Slips   int

	Timed  int
	Median float64 // of the timed strokes, ms

	Firsts      int // first meetings of the day
	FirstTimed  int
	FirstMedian float64
	FirstSlips  int

	Pace   scheduler.Point // at the end of the day
	Err    float64         // expected share of slips in the user's work
	Steady float64         // share of the board's strokes
}

// openDay is a day that may go on, with its single latencies.
type openDay struct {
	Day     dayCount
	Before  dayCount // what was there of the day when it was opened again
	MS      []float32
	FirstMS []float32
}

// first counts a first meeting. Of several in a drill without order it is not
// known which came first, so that their time says nothing.
func (o *openDay) first(k journal.Key, unclear bool) {
	if unclear {
		return
	}
	o.Day.Firsts++
	if k.Wrong() {
		o.Day.FirstSlips++
	} else if hasTime(k) {
		o.FirstMS = append(o.FirstMS, float32(k.MS))
	}
}

// endDays closes the days that are open when practice goes on on another day.
func (t *Tally) endDays(on date) {
	for b := range t.c.Open {
		if o := &t.c.Open[b]; o.Day.Date != 0 && o.Day.Date != on {
			t.noteDay(b)
			*o = openDay{}
		}
	}
}

// openDay opens a day on a board, again if it was there already: the clock may
// have gone back, or another machine stood in another time zone.
func (t *Tally) openDay(b int, on date) {
	o := &t.c.Open[b]
	if o.Day.Date == on {
		return
	}
	*o = openDay{Day: dayCount{Date: on, Board: b}}
	if i, ok := t.c.findDay(on, b); ok {
		o.Before = t.c.Days[i]
	}
}

// noteDay writes the open day of a board among the days, with where the model stands.
func (t *Tally) noteDay(b int) {
	o := &t.c.Open[b]
	if o.Day.Date == 0 {
		return
	}
	o.Day.Timed, o.Day.Median = len(o.MS), median(o.MS)
	o.Day.FirstTimed, o.Day.FirstMedian = len(o.FirstMS), median(o.FirstMS)
	if t.model != nil && t.c.Sides[b].Timed > 0 { // without a time all of it is presumed
		at := t.c.Sides[b].Last.Add(24 * time.Hour)
		o.Day.Pace = t.model.Pace(b, at)
		o.Day.Err, o.Day.Steady = t.standing(b, at)
	}
	day := o.Day.join(o.Before)
	i, ok := t.c.findDay(day.Date, b)
	if ok {
		t.c.Days[i] = day
	} else {
		t.c.Days = slices.Insert(t.c.Days, i, day)
	}
}

// standing returns the expected share of slips in the user's work, and the
// share of the board's strokes that are steady.
func (t *Tally) standing(b int, at time.Time) (slips, steady float64) {
	share, n := 0.0, 0
	for id, s := range t.strokes {
		if s.Board != b || s.Retired {
			continue
		}
		n++
		share += s.Freq
		slips += s.Freq * t.model.Level(id, at).Err
		if t.model.State(id, at) == scheduler.Steady {
			steady++
		}
	}
	return slips / max(share, tiny), steady / float64(max(n, 1))
}

const tiny = 1e-12

func (c *counts) findDay(on date, b int) (int, bool) {
	return slices.BinarySearchFunc(c.Days, dayCount{Date: on, Board: b}, func(a, b dayCount) int {
		if a.Date != b.Date {
			return int(a.Date - b.Date)
		}
		return a.Board - b.Board
	})
}

// join adds an earlier part of the same day. Of two medians it keeps the mean,
// weighted: single latencies are kept of the latest day only.
func (d dayCount) join(before dayCount) dayCount {
	d.Changed = d.Changed || before.Changed
	d.MS += before.MS
	d.Strokes += before.Strokes
	d.Slips += before.Slips
	d.Median, d.Timed = weighted(d.Median, d.Timed, before.Median, before.Timed)
	d.FirstMedian, d.FirstTimed = weighted(d.FirstMedian, d.FirstTimed, before.FirstMedian, before.FirstTimed)
	d.Firsts += before.Firsts
	d.FirstSlips += before.FirstSlips
	return d
}

func weighted(a float64, n int, b float64, m int) (float64, int) {
	if n+m == 0 {
		return 0, 0
	}
	return (a*float64(n) + b*float64(m)) / float64(n+m), n + m
}

// median is 0 without values. It keeps their order.
func median(ms []float32) float64 {
	if len(ms) == 0 {
		return 0
	}
	s := slices.Sorted(slices.Values(ms))
	return float64(s[(len(s)-1)/2]+s[len(s)/2]) / 2
}

// days returns the days as they are told; tail as in tailFactor.
func (c *counts) days(tail float64) []Day {
	var out []Day
	var last [2]date
	for _, d := range c.Days {
		day := Day{
			Date: d.Date.String(), Board: d.Name, Learned: d.Board == 0, Changed: d.Changed,
			Minutes: d.MS / 60000, Strokes: d.Strokes, Slips: d.Slips,
			LatencyMS: paceRange(longer(d.Pace, tail)), ErrShare: d.Err, SteadyShare: d.Steady,
			MedianMS: d.Median, Timed: d.Timed, First: d.Firsts, FirstMS: d.FirstMedian, FirstSlips: d.FirstSlips,
		}
		if last[d.Board] != 0 {
			day.Gap = int(d.Date-last[d.Board]) - 1
		}
		last[d.Board] = d.Date
		out = append(out, day)
	}
	return out
}
