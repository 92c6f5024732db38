package report

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strings"
	"time"

	"underlay/cmd/underlay/standing"
)

// plot is a picture of figures over days. Its lines are SVG, stretched to the
// width there is; labels are text beside it, so that they stay readable on a
// phone. Own code, and not a plotting library: those draw for one width and one
// background, and give no text alternative.
type plot struct {
	id, title, desc string
	from, to        time.Time
	lo, hi          float64
	unit            string // after the labels of the axis
	height          int    // in CSS pixels
	svg             strings.Builder
	labels          []plotLabel
}

const plotWidth, plotHeight = 1000.0, 200.0

func newPlot(id, title string, from, to time.Time, lo, hi float64, height int) *plot {
	if !to.After(from) {
		to = from.AddDate(0, 0, 1)
	}
	if !(hi > lo) {
		hi = lo + 1
	}
	return &plot{id: id, title: title, from: from, to: to, lo: lo, hi: hi, height: height}
}

func (p *plot) x(t time.Time) float64 {
	return plotWidth * t.Sub(p.from).Hours() / p.to.Sub(p.from).Hours()
}

func (p *plot) y(v float64) float64 {
	return plotHeight * (p.hi - min(max(v, p.lo), p.hi)) / (p.hi - p.lo)
}

// spot is a point of a line; the line is interrupted before a point with a break.
type spot struct {
	when   time.Time
	value  float64
	lo, hi float64
	broken bool
}

// line draws a line with its points, class as in the style sheet.
func (p *plot) line(class string, points []spot) {
	var path, marks strings.Builder
	for i, q := range points {
		verb := "L"
		if i == 0 || q.broken {
			verb = "M"
		}
		fmt.Fprintf(&path, "%s%.1f %.1f", verb, p.x(q.when), p.y(q.value))
		fmt.Fprintf(&marks, "M%.1f %.1fh0", p.x(q.when), p.y(q.value))
	}
	if len(points) == 0 {
		return
	}
	fmt.Fprintf(&p.svg, `<path class="%s" d="%s"/>`, class, path.String())
	if len(points) <= 120 {
		fmt.Fprintf(&p.svg, `<path class="%s dot" d="%s"/>`, class, marks.String())
	}
}

// band fills the ranges, a piece for every run without a break.
func (p *plot) band(class string, points []spot) {
	for from := 0; from < len(points); {
		to := from + 1
		for to < len(points) && !points[to].broken {
			to++
		}
		p.piece(class, points[from:to])
		from = to
	}
}

func (p *plot) piece(class string, points []spot) {
	if len(points) == 1 { // a day alone is a stroke from end to end
		q := points[0]
		fmt.Fprintf(&p.svg, `<path class="%s alone" d="M%.1f %.1fV%.1f"/>`, class, p.x(q.when), p.y(q.hi), p.y(q.lo))
		return
	}
	var d strings.Builder
	for i, q := range points {
		fmt.Fprintf(&d, "%s%.1f %.1f", map[bool]string{true: "M", false: "L"}[i == 0], p.x(q.when), p.y(q.hi))
	}
	for i := len(points) - 1; i >= 0; i-- {
		fmt.Fprintf(&d, "L%.1f %.1f", p.x(points[i].when), p.y(points[i].lo))
	}
	fmt.Fprintf(&p.svg, `<path class="%s" d="%sZ"/>`, class, d.String())
}

// bars draws a bar from the axis for every point.
func (p *plot) bars(class string, points []spot) {
	var d strings.Builder
	for _, q := range points {
		fmt.Fprintf(&d, "M%.1f %.1fV%.1f", p.x(q.when), plotHeight, p.y(q.value))
	}
	fmt.Fprintf(&p.svg, `<path class="%s" d="%s"/>`, class, d.String())
}

// level draws a line across with words on it, at the end where they are
// farthest from the points.
func (p *plot) level(v float64, words string, points []spot) {
	if v <= p.lo || v >= p.hi {
		return
	}
	fmt.Fprintf(&p.svg, `<path class="level" d="M0 %.1fH%.0f"/>`, p.y(v), plotWidth)
	const letters = .04 // how far above or below the line the words are, as a share of the height
	best, room := place{}, -1.0
	for _, at := range []place{{"on", 100, letters}, {"on start", 0, letters}, {"on below", 100, -letters}, {"on start below", 0, -letters}} {
		if r := p.room(at.left, v+at.up*(p.hi-p.lo), points); r > room+1e-9 {
			best, room = at, r
		}
	}
	p.label(best.class, best.left, v, words)
}

// place is where words can stand on a line.
type place struct {
	class string
	left  float64 // per cent of the width
	up    float64 // share of the height
}

// room is the least distance in height between v and the points in the half of
// the picture that begins or ends at left.
func (p *plot) room(left, v float64, points []spot) float64 {
	least := p.hi - p.lo
	for _, q := range points {
		if (p.x(q.when) > plotWidth/2) == (left > 50) {
			least = min(least, math.Abs(q.value-v))
		}
	}
	return least
}

// upright marks a day from top to bottom.
func (p *plot) upright(t time.Time, words string) {
	x := p.x(t)
	fmt.Fprintf(&p.svg, `<path class="mark" d="M%.1f 0V%.0f"/>`, x, plotHeight)
	side := ""
	if x > .6*plotWidth {
		side = " left"
	}
	p.label("top"+side, x/plotWidth*100, p.hi, words)
}

func (p *plot) label(class string, x, v float64, words string) {
	p.labels = append(p.labels, plotLabel{class, x, p.y(v) / plotHeight * 100, words})
}

// plotLabel is text in a plot, at a place in per cent of its width and height.
type plotLabel struct {
	class string // says on which side of the place it stands
	x, y  float64
	words string
}

// spans are the labels as text of a page.
func (p *plot) spans() string {
	var b strings.Builder
	for _, l := range p.labels {
		fmt.Fprintf(&b, `<span class="%s" style="left:%.2f%%;top:%.2f%%">%s</span>`, l.class, l.x, l.y, html.EscapeString(l.words))
	}
	return b.String()
}

// axes draws round values and days.
func (p *plot) axes() {
	step := max(1, roundStep((p.hi-p.lo)/4)) // labels are whole
	for v := math.Ceil(p.lo/step) * step; v <= p.hi+step/1e6; v += step {
		fmt.Fprintf(&p.svg, `<path class="grid" d="M0 %.1fH%.0f"/>`, p.y(v), plotWidth)
		p.label("y", 0, v, whole(v)+p.unit)
	}
	days := p.to.Sub(p.from).Hours() / 24
	format, most := "2 Jan", 4
	if days > 300 {
		format, most = "Jan 2006", 3 // there is room for on a phone
	}
	ticks := min(most, max(1, int(days)))
	for i := range ticks + 1 {
		t := p.from.AddDate(0, 0, int(math.Round(days*float64(i)/float64(ticks))))
		class := "x"
		switch i {
		case 0:
			class = "x first"
		case ticks:
			class = "x last"
		}
		p.label(class, p.x(t)/plotWidth*100, p.lo, t.Format(format))
	}
}

// roundStep is the round number next above x: 1, 2 or 5 times a power of ten.
func roundStep(x float64) float64 {
	if !(x > 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*power*(1+1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// html is the finished picture.
func (p *plot) html() template.HTML {
	return template.HTML(fmt.Sprintf(`<div class="plot" style="height:%dpx"><svg role="img" aria-labelledby="%s-t %s-d" viewBox="0 0 %.0f %.0f" preserveAspectRatio="none"><title id="%s-t">%s</title><desc id="%s-d">%s</desc>%s</svg><div aria-hidden="true">%s</div></div>`,
		p.height, p.id, p.id, plotWidth, plotHeight, p.id, html.EscapeString(p.title), p.id, html.EscapeString(p.desc), p.svg.String(), p.spans()))
}

// points picks a figure of every day.
func points(days []standing.Day, of func(standing.Day) (standing.Range, bool)) []spot {
	var out []spot
	skipped := false
	for _, d := range days {
		r, ok := of(d)
		if !ok {
			skipped = true
			continue
		}
		out = append(out, spot{dayOf(d.Date), r.Value, r.Lo, r.Hi, skipped || d.Gap > 1 || len(out) == 0})
		skipped = false
	}
	return out
}
