package report

import (
	"strings"
	"testing"
	"time"

	"underlay/cmd/underlay/standing"
)

// daysOf makes days on the board being learned with the given expected times;
// 0 is a day without practice.
func daysOf(ms ...float64) []standing.Day {
	var out []standing.Day
	gap := 0
	for i, v := range ms {
		if v == 0 {
			gap++
			continue
		}
		if len(out) == 0 {
			gap = 0
		}
		out = append(out, standing.Day{Date: time.Date(2026, 9, 1+i, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), Learned: true, Strokes: 100, Slips: 4,
			LatencyMS: standing.Range{Value: v, Lo: .9 * v, Hi: 1.1 * v}, Gap: gap})
		gap = 0
	}
	return out
}

// In the text a break stays open, the first day is at the left edge and the
// last at the right one, the slowest at the top and the fastest at the bottom.
func TestCurveLeavesBreaksOpen(t *testing.T) {
	days := daysOf(800, 700, 650, 0, 0, 0, 0, 0, 0, 0, 600, 500, 400)
	days[3].Changed = true
	c := newCurve(days, 26, 4)
	lines := c.lines()
	if len(lines) != 4 || !strings.HasPrefix(lines[0], "⠉") && !strings.HasPrefix(lines[0], "⠑") {
		t.Fatalf("%q", lines)
	}
	for i, l := range lines {
		if middle := cells(l, 8, 18); strings.Trim(middle, " ") != "" {
			t.Errorf("line %d: something in the break: %q", i, l)
		}
	}
	if n := len([]rune(lines[3])); n != 26 {
		t.Errorf("the last day ends in cell %d of 26: %q", n, lines[3])
	}
	if marks := c.marks(); strings.Index(marks, "^") != c.x(3)/2 {
		t.Errorf("the change is marked at %q, it was on day %d", marks, c.x(3)/2)
	}
}

// cells is a part of a line, blanks where it has ended.
func cells(line string, from, to int) string {
	r := []rune(line + strings.Repeat(" ", to))
	return string(r[from:to])
}

// A day missing is no break; more are. Every break begins a line and a band anew.
func TestPlotLeavesBreaksOpen(t *testing.T) {
	days := daysOf(800, 700, 0, 650, 0, 0, 600, 500, 0, 0, 0, 400)
	points := points(days, pace)
	from, to := points[0].when, points[len(points)-1].when
	p := newPlot("x", "", from, to, 300, 900, 100)
	p.line("one", points)
	line := p.svg.String()
	line = line[:strings.Index(line, "/>")]
	if got := strings.Count(line, "M"); got != 3 {
		t.Errorf("%d lines, want 3: %s", got, line)
	}
	p = newPlot("x", "", from, to, 300, 900, 100)
	p.band("range one", points)
	if band := p.svg.String(); strings.Count(band, "<path") != 3 || strings.Count(band, "alone") != 1 {
		t.Errorf("want two bands and a day alone: %s", band)
	}
}

// Points lie where their days and values are.
func TestPlotScales(t *testing.T) {
	from := time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC)
	p := newPlot("x", "", from, from.AddDate(0, 0, 10), 100, 300, 100)
	for _, c := range []struct {
		day      int
		v        float64
		atX, atY float64
	}{{0, 300, 0, 0}, {10, 100, plotWidth, plotHeight}, {5, 200, plotWidth / 2, plotHeight / 2}, {5, 900, plotWidth / 2, 0}} {
		if x, y := p.x(from.AddDate(0, 0, c.day)), p.y(c.v); x != c.atX || y != c.atY {
			t.Errorf("day %d, %v: %v, %v; want %v, %v", c.day, c.v, x, y, c.atX, c.atY)
		}
	}
	for x, want := range map[float64]float64{.9: 1, 1: 1, 1.3: 2, 23: 50, 60: 100, 0: 1} {
		if got := roundStep(x); got != want {
			t.Errorf("roundStep(%v) = %v, want %v", x, got, want)
		}
	}
}

// No two values at an axis are told by the same number, however small they are.
func TestPlotNamesEachValueOnce(t *testing.T) {
	from := time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC)
	for _, hi := range []float64{1, 2, 3, 5, 8, 21} {
		p := newPlot("x", "", from, from.AddDate(0, 0, 10), 0, hi, 100)
		p.axes()
		told := map[string]bool{}
		for _, l := range p.labels {
			if l.class == "y" && told[l.words] {
				t.Errorf("up to %v: %q stands there twice", hi, l.words)
			}
			told[l.words] = true
		}
	}
}

// The lines to hold a speed against are named for where they come from, and
// are those that lie in the picture.
func TestReferencesAreLabelled(t *testing.T) {
	s := practised(t, "split-38", "ansi-61")
	text := pageOf(t, s)
	for _, want := range []string{"Card, Moran &amp; Newell, 1980", "average non-secretary typist, 280 ms", "typing random letters, 500 ms"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(text, "1,200 ms") {
		t.Error("a line beyond the picture is labelled")
	}
}

// What is said of chances: reached, a range, an open end, and not on this course.
func TestOutlookWords(t *testing.T) {
	for _, c := range []struct {
		o    standing.Outlook
		want string
	}{
		{standing.Outlook{Share: 1, Reached: true}, "as fast as on b: reached"},
		{standing.Outlook{Share: .8, Chance: .9, Lo: 3, Median: 5, Hi: 9}, "80 % of the speed on b: chance 90 %, in 3 to 9 more sessions"},
		{standing.Outlook{Share: .8, Chance: .4, Lo: 12, Median: -1, Hi: -1}, "80 % of the speed on b: chance 40 %, in 12 or many more sessions"},
		{standing.Outlook{Share: 1, Chance: .02, Lo: -1, Median: -1, Hi: -1}, "as fast as on b: chance 2 %, not on this course"},
	} {
		if got := outlook(c.o, "b"); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The words on a line stand at the end and on the side that the points leave free.
func TestLevelAvoidsThePoints(t *testing.T) {
	points := points(daysOf(900, 700, 500, 330, 310, 305, 303, 301), pace)
	p := newPlot("x", "", points[0].when, points[len(points)-1].when, 200, 900, 100)
	p.level(300, "words", points)
	if got := p.spans(); !strings.Contains(got, `class="on start below"`) {
		t.Errorf("%s", got)
	}
	p = newPlot("x", "", points[0].when, points[len(points)-1].when, 200, 900, 100)
	p.level(750, "words", points)
	if got := p.spans(); !strings.Contains(got, `class="on"`) {
		t.Errorf("%s", got)
	}
}
