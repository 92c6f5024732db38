package report

import (
	"fmt"
	"html"
	"io"
	"strings"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// sizes of an excerpt, in CSS pixels
const (
	excerptWidth  = 960.0
	excerptMargin = 24.0
	axisRoom      = 44.0 // beside a plot
	curveHeight   = 220.0
	layerTop      = 400.0
)

// Excerpt writes what the page shows first of speed, and one layer of keys, as an SVG picture of
// its own: for where a page cannot be shown. b is the board being learned. It is
// an error if nothing is known of the speed, or the layer has nothing that is drilled.
func Excerpt(w io.Writer, s standing.Standing, b *board.Board, layer string) error {
	learned, other := timedDays(ofBoard(s.Days, true)), timedDays(ofBoard(s.Days, false))
	if len(learned) == 0 || !s.Readiness.Known {
		return fmt.Errorf("report: no speed is known on %s", s.Boards[0].Name)
	}
	from, to := dayOf(s.Days[0].Date), dayOf(s.Days[len(s.Days)-1].Date)
	keys, bottom := excerptKeys(s, b, layer)
	if keys == "" {
		return fmt.Errorf("report: nothing is drilled on the layer %s", layer)
	}
	height := bottom + excerptMargin
	head := fmt.Sprintf("%s (%s) %s", percent(s.Readiness.Share.Value), percents(s.Readiness.Share), ready(s.Readiness, len(s.Boards) == 2))
	var out strings.Builder
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" width="%.0f" height="%.0f" role="img">`+"\n", excerptWidth, height, excerptWidth, height)
	fmt.Fprintf(&out, "<title>Progress on %s: %s</title>\n<style>\n%s%s</style>\n", html.EscapeString(board.Safe(b.Name)), html.EscapeString(head), pageCSS, excerptCSS)
	fmt.Fprintf(&out, `<rect class="sheet" width="%.0f" height="%.0f" rx="6"/>`+"\n", excerptWidth, height)
	words(&out, "head", excerptMargin, 46, head)
	words(&out, "", excerptMargin, 78, "Expected ms a stroke of the mix: "+lines(s)+"; dotted, one keystroke (Card, Moran & Newell, 1980)")
	out.WriteString(pacePlot(s, learned, other, from, to).picture(excerptMargin+axisRoom, 96, excerptWidth-2*excerptMargin-axisRoom, curveHeight))
	words(&out, "", excerptMargin, layerTop-22, "What the strokes of the "+board.Safe(layer)+" layer cost, ms per 1,000 characters; full discs are steady")
	out.WriteString(keys)
	out.WriteString("</svg>\n")
	_, err := io.WriteString(w, out.String())
	return err
}

// excerptCSS is what the style of the page lacks for a picture.
const excerptCSS = `.sheet { fill: var(--paper); stroke: var(--rule); }
text { font: 15px system-ui, sans-serif; fill: var(--ink); }
text.head { font-size: 22px; font-weight: 600; }
text.mark-of { font-size: 12px; fill: var(--soft); }
`

// lines says which line is which board.
func lines(s standing.Standing) string {
	if len(s.Boards) < 2 {
		return board.Safe(s.Boards[0].Name)
	}
	return board.Safe(s.Boards[0].Name) + " full, " + board.Safe(s.Boards[1].Name) + " dashed"
}

func words(out *strings.Builder, class string, x, y float64, text string) {
	fmt.Fprintf(out, `<text class="%s" x="%.1f" y="%.1f">%s</text>`+"\n", class, x, y, html.EscapeString(text))
}

// excerptKeys draws a layer, its halves side by side, and tells where it ends.
func excerptKeys(s standing.Standing, b *board.Board, layer string) (svg string, bottom float64) {
	const room = excerptWidth - 2*excerptMargin
	for _, c := range allCaps(s, b) {
		if c.layer != layer {
			continue
		}
		x := excerptMargin
		for _, keys := range c.parts() {
			drawn, width, height := c.drawn(keys)
			scale := min(room/width, room/(12.5*unit)) // twelve keys in a row and a gap, where there are no more
			svg += fmt.Sprintf(`<g class="keys" transform="translate(%.1f %.0f) scale(%.4f)">%s</g>`+"\n", x, layerTop, scale, drawn)
			x = excerptWidth - excerptMargin - width*scale
			bottom = max(bottom, layerTop+height*scale)
		}
	}
	return svg, bottom
}

// picture is a plot with its labels, at a place of a larger picture.
func (p *plot) picture(x, y, width, height float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<g class="plot" transform="translate(%.0f %.0f) scale(%.4f %.4f)">%s</g>`+"\n", x, y, width/plotWidth, height/plotHeight, p.svg.String())
	for _, l := range p.labels {
		at, down, anchor := l.x/100*width, l.y/100*height, l.anchor()
		switch {
		case l.class == "y":
			at, down = at-8, down+4
		case strings.HasPrefix(l.class, "x"):
			down += 20
		case strings.Contains(l.class, "below"), strings.HasPrefix(l.class, "top"):
			down += 15
		default:
			down -= 5
		}
		fmt.Fprintf(&b, `<text class="mark-of" text-anchor="%s" x="%.1f" y="%.1f">%s</text>`+"\n", anchor, x+at, y+down, html.EscapeString(l.words))
	}
	return b.String()
}

// anchor is the side on which a label stands at its place.
func (l plotLabel) anchor() string {
	switch {
	case l.class == "x":
		return "middle"
	case strings.Contains(l.class, "start"), strings.HasSuffix(l.class, "first"), l.class == "top":
		return "start"
	}
	return "end"
}
