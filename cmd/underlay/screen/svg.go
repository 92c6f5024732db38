package screen

import (
	"bufio"
	"fmt"
	"html"
	"io"

	"underlay/cmd/underlay/session"
)

// Size of a cell in a picture, in SVG user units. The advance of most
// monospaced fonts is 0.6 of their size.
const (
	svgFont   = 15.0
	svgCellW  = 9.0
	svgCellH  = 19.0
	svgMargin = 12.0
)

// WriteSVG draws a view in a window of a size, exactly as a terminal would show
// it, as an SVG picture that follows the reader's light or dark background.
func WriteSVG(w io.Writer, v session.View, width, height int, title string) error {
	var s sheet
	s.resize(width, height)
	s.clear()
	draw(&s, v, false, new(places))
	out := bufio.NewWriter(w)
	pw, ph := float64(width)*svgCellW+2*svgMargin, float64(height)*svgCellH+2*svgMargin
	fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" width="%g" height="%g" role="img">`+"\n", pw, ph, pw, ph)
	fmt.Fprintf(out, "<title>%s</title>\n<style>\n%s</style>\n", html.EscapeString(title), svgStyle())
	fmt.Fprintf(out, `<rect class="paper" width="%g" height="%g" rx="6"/>`+"\n", pw, ph)
	for y := range s.h {
		svgRow(out, &s, y)
	}
	if s.cx >= 0 {
		fmt.Fprintf(out, `<rect class="cursor" x="%g" y="%g" width="%g" height="2"/>`+"\n",
			svgMargin+float64(s.cx)*svgCellW, svgMargin+float64(s.cy+1)*svgCellH-3, svgCellW)
	}
	fmt.Fprintln(out, "</svg>")
	return out.Flush()
}

// svgStyle says what the looks are, with the colours of the themes.
func svgStyle() string {
	return fmt.Sprintf(`text { font: %gpx ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace; white-space: pre; fill: #1c1c1c }
.paper { fill: #ffffff; stroke: #d0d0d0 } .cursor { fill: #1c1c1c }
.strong, .accent, .hold, .lit, .slip, .wrong, .target, .chosen { font-weight: bold }
.faint { fill: #6a6a6a } .accent, .hold { fill: #005faf } .slip, .wrong { fill: #af5f00 } .wrong { text-decoration: underline }
rect.target { fill: #005faf } rect.chosen { fill: #1c1c1c } text.target, text.chosen { fill: #ffffff }
@media (prefers-color-scheme: dark) {
text { fill: #e4e4e4 } .paper { fill: #101010; stroke: #3a3a3a } .cursor { fill: #e4e4e4 }
.faint { fill: #8c8c8c } .accent, .hold { fill: #56b4e9 } .slip, .wrong { fill: #e69f00 }
rect.target { fill: #56b4e9 } rect.chosen { fill: #e4e4e4 } text.target, text.chosen { fill: #101010 }
}
`, svgFont)
}

// className names a look in the picture.
func (l look) className() string {
	return [looks]string{"plain", "strong", "faint", "accent", "target", "hold", "lit", "slip", "wrong", "chosen"}[l]
}

// svgRow writes the runs of one look in a row.
func svgRow(out io.Writer, s *sheet, y int) {
	row := s.row(y)
	for x := 0; x < len(row); {
		from, text, blank := x, "", true
		for x < len(row) && row[x].look == row[from].look {
			text += row[x].text
			blank = blank && (row[x].text == " " || row[x].text == "")
			x++
		}
		if l := row[from].look; !blank || l == target || l == chosen {
			svgRun(out, from, x, y, text, l)
		}
	}
}

func svgRun(out io.Writer, from, to, y int, text string, l look) {
	x, top, width := svgMargin+float64(from)*svgCellW, svgMargin+float64(y)*svgCellH, float64(to-from)*svgCellW
	if l == target || l == chosen {
		fmt.Fprintf(out, `<rect class="%s" x="%g" y="%g" width="%g" height="%g"/>`, l.className(), x, top, width, svgCellH)
	}
	fmt.Fprintf(out, `<text class="%s" x="%g" y="%g" textLength="%g" lengthAdjust="spacing" xml:space="preserve">%s</text>`+"\n",
		l.className(), x, top+svgCellH-5, width, html.EscapeString(text))
}
