package report

import (
	"fmt"
	"html/template"
	"math"
	"time"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// curves are the plots of the page.
type curves struct {
	Pace, Typed, Slips, Steady, Minutes template.HTML // empty where there is nothing to draw
}

// reference is a figure from the literature, to hold a speed against.
type reference struct {
	ms    float64
	words string
}

// keystrokeLevel are times of one keystroke by skill in the keystroke-level
// model (Card, Moran & Newell 1980, Communications of the ACM 23(7), 396-410,
// figure 1).
func keystrokeLevel() []reference {
	return []reference{
		{80, "best typist"}, {120, "good typist"}, {200, "average skilled typist"}, {280, "average non-secretary typist"},
		{500, "typing random letters"}, {750, "typing complex codes"}, {1200, "worst typist, unfamiliar keyboard"},
	}
}

// newCurves draws what there is to draw: without times there are slips and minutes.
func newCurves(s standing.Standing) curves {
	typed := ofBoard(s.Days, true)
	if len(typed) == 0 {
		return curves{}
	}
	from, to := dayOf(s.Days[0].Date), dayOf(s.Days[len(s.Days)-1].Date)
	c := curves{Slips: slipsPlot(typed, from, to), Minutes: minutesPlot(s.Days, from, to)}
	if learned := timedDays(typed); len(learned) > 0 {
		c.Pace = pacePlot(s, learned, timedDays(ofBoard(s.Days, false)), from, to).html()
		c.Typed = typedPlot(learned, from, to)
		c.Steady = steadyPlot(learned, from, to)
	}
	return c
}

func pace(d standing.Day) (standing.Range, bool) { return d.LatencyMS, d.LatencyMS.Value > 0 }

func pacePlot(s standing.Standing, learned, other []standing.Day, from, to time.Time) *plot {
	lo, hi := math.Inf(1), 0.0
	for _, d := range append(append([]standing.Day{}, learned...), other...) {
		lo, hi = min(lo, d.LatencyMS.Lo), max(hi, d.LatencyMS.Hi)
	}
	lo -= .05 * (hi - lo) // so that a figure is not on the edge
	p := newPlot("pace", "Expected ms a stroke of your own mix, by day", from, to, math.Floor(lo/50)*50, math.Ceil(hi/50)*50, 260)
	first, last := learned[0].LatencyMS, learned[len(learned)-1].LatencyMS
	p.desc = fmt.Sprintf("On %s from %s ms on the first day to %s ms on the last (%s).", board.Safe(s.Boards[0].Name), whole(first.Value), whole(last.Value), span(last))
	if len(other) > 0 {
		end := other[len(other)-1].LatencyMS
		p.desc += fmt.Sprintf(" On %s %s ms on the last day (%s).", board.Safe(s.Boards[1].Name), whole(end.Value), span(end))
	}
	p.axes()
	all := append(points(learned, pace), points(other, pace)...)
	for _, r := range keystrokeLevel() {
		p.level(r.ms, fmt.Sprintf("%s, %s ms", r.words, whole(r.ms)), all)
	}
	changes(p, learned)
	p.band("range two", points(other, pace))
	p.line("two", points(other, pace))
	p.band("range one", points(learned, pace))
	p.line("one", points(learned, pace))
	return p
}

// changes marks the days from which on the board is another one.
func changes(p *plot, days []standing.Day) {
	for _, d := range days {
		if d.Changed {
			p.upright(dayOf(d.Date), "board changed")
		}
	}
}

// typedPlot shows what was really typed: the day's median, and the first
// meetings of the day.
func typedPlot(days []standing.Day, from, to time.Time) template.HTML {
	median := func(d standing.Day) (standing.Range, bool) {
		return standing.Range{Value: d.MedianMS}, d.Timed >= fewest
	}
	first := func(d standing.Day) (standing.Range, bool) {
		return standing.Range{Value: d.FirstMS}, d.First >= fewest && d.FirstMS > 0
	}
	hi := 0.0
	for _, d := range days {
		hi = max(hi, d.MedianMS, d.FirstMS)
	}
	p := newPlot("typed", "Median latency in ms of the day's drills", from, to, 0, math.Ceil(hi/100)*100, 180)
	d := days[len(days)-1]
	p.desc = "On the last day nothing was typed right and unaided."
	if d.MedianMS > 0 {
		p.desc = fmt.Sprintf("On the last day the median was %s ms.", whole(d.MedianMS))
	}
	if d.FirstMS > 0 {
		p.desc += fmt.Sprintf(" Where a stroke was met for the first time that day it was %s ms.", whole(d.FirstMS))
	}
	p.axes()
	p.line("two", points(days, first))
	p.line("one", points(days, median))
	return p.html()
}

// fewest is the number of strokes from which on a median is drawn.
const fewest = 5

func slipsPlot(days []standing.Day, from, to time.Time) template.HTML {
	most := 0.0
	slips := func(d standing.Day) (standing.Range, bool) {
		return standing.Range{Value: 100 * slipShare(d)}, d.Strokes > 0
	}
	for _, d := range days {
		most = max(most, 100*slipShare(d))
	}
	p := newPlot("slipped", "Slips among the day's strokes, per cent", from, to, 0, max(5, math.Ceil(most/5)*5), 140)
	p.unit = " %"
	p.desc = fmt.Sprintf("On the last day %s of the strokes typed were slips.", percent(slipShare(days[len(days)-1])))
	p.axes()
	p.line("one", points(days, slips))
	return p.html()
}

func slipShare(d standing.Day) float64 { return float64(d.Slips) / float64(max(d.Strokes, 1)) }

func steadyPlot(days []standing.Day, from, to time.Time) template.HTML {
	steady := func(d standing.Day) (standing.Range, bool) {
		return standing.Range{Value: 100 * d.SteadyShare}, true
	}
	p := newPlot("steady", "Strokes of the board that are steady, per cent", from, to, 0, 100, 140)
	p.unit = " %"
	p.desc = fmt.Sprintf("On the last day %s of the board's strokes were steady.", percent(days[len(days)-1].SteadyShare))
	p.axes()
	p.line("one", points(days, steady))
	return p.html()
}

func minutesPlot(days []standing.Day, from, to time.Time) template.HTML {
	total := map[string]float64{}
	hi, sum := 0.0, 0.0
	var order []standing.Day
	for _, d := range days {
		if total[d.Date] == 0 {
			order = append(order, d)
		}
		total[d.Date] += d.Minutes
		hi, sum = max(hi, total[d.Date]), sum+d.Minutes
	}
	p := newPlot("minutes", "Minutes of practice by day, both boards", from, to, 0, max(1, math.Ceil(hi)), 90)
	p.desc = fmt.Sprintf("%s in all, on %s.", count(int(math.Round(sum)), "minute", "minutes"), count(len(order), "day", "days"))
	p.axes()
	var bars []spot
	for _, d := range order {
		bars = append(bars, spot{when: dayOf(d.Date), value: total[d.Date]})
	}
	p.bars("one", bars)
	return p.html()
}
