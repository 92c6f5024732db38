package report

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"underlay/drills/board"
)

// Sheet writes the layers of a board, or those named, as an SVG picture of one
// A4 page. Holds are written in words beside the row, and the key to hold for a
// layer has a ring. It reads well in black and white, and follows the reader's
// choice of light or dark; printed, it is black on white.
func Sheet(w io.Writer, b *board.Board, layers []string) error {
	p := layOut(b, layers)
	out := &svg{w: bufio.NewWriter(w)}
	out.open(p, heading(b), describe(b, layers))
	out.text(p.title, "t")
	for _, bl := range p.blocks {
		out.line("<g>")
		out.text(bl.head, "t")
		for _, c := range bl.keys {
			out.cap(c, p.unit)
		}
		for _, n := range bl.notes {
			out.text(n, "t")
		}
		out.line("</g>")
	}
	for _, f := range p.foot {
		out.text(f, "t")
	}
	out.line("</svg>")
	return out.w.Flush()
}

type svg struct{ w *bufio.Writer }

func (s *svg) line(format string, args ...any) { fmt.Fprintf(s.w, format+"\n", args...) }

// style sets colours by class, so that dark and print can change them.
const style = `<style>
svg { background: #fff; color: #111 }
.k { fill: none; stroke: currentColor; stroke-width: .3 }
.f { stroke-opacity: .35; stroke-width: .2 }
.r { fill: none; stroke: currentColor; stroke-width: .8 }
.n { stroke: currentColor; stroke-width: .3 }
.t { fill: currentColor; font-family: "DejaVu Sans", "Noto Sans", Arial, sans-serif }
@media (prefers-color-scheme: dark) { svg { background: #16181c; color: #e8e6e1 } }
@media print { svg { background: #fff; color: #000 } @page { size: A4; margin: 0 } }
</style>`

func (s *svg) open(p *sheet, title, about string) {
	s.line(`<?xml version="1.0" encoding="UTF-8"?>`)
	s.line(`<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm" viewBox="0 0 %g %g" role="img">`, p.width, p.height, p.width, p.height)
	s.line("<title>%s</title>", escaped(board.Safe(title)))
	s.line("<desc>%s</desc>", escaped(about))
	s.line(style)
}

func (s *svg) cap(c cap, unit float64) {
	class := "k"
	if c.faint {
		class = "k f"
	}
	s.line(`<rect class="%s" x="%.2f" y="%.2f" width="%.2f" height="%.2f" rx="%.2f"/>`, class, c.x, c.y, c.w, c.h, 0.12*unit)
	if c.ringed {
		in := 0.08 * unit
		s.line(`<ellipse class="r" cx="%.2f" cy="%.2f" rx="%.2f" ry="%.2f"/>`, c.x+c.w/2, c.y+c.h/2, c.w/2-in, c.h/2-in)
	}
	if c.never {
		s.line(`<line class="n" x1="%.2f" y1="%.2f" x2="%.2f" y2="%.2f"/>`, c.x, c.y+c.h, c.x+c.w, c.y)
	}
	if c.legend.body != "" {
		s.text(c.legend, "t")
	}
}

func (s *svg) text(t label, class string) {
	look := map[face]string{
		bold: ` font-weight="bold"`, middle: ` text-anchor="middle"`, slant: ` text-anchor="middle" font-style="italic"`,
	}[t.face]
	s.line(`<text class="%s" x="%.2f" y="%.2f" font-size="%.2f"%s xml:space="preserve">%s</text>`, class, t.x, t.y, t.size, look, escaped(t.body))
}

func escaped(s string) string {
	var out strings.Builder
	_ = xml.EscapeText(&out, []byte(s)) // a Builder does not fail
	return out.String()
}
