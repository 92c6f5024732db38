package report

import (
	"fmt"
	"math"
	"strings"

	"github.com/rivo/uniseg"

	"underlay/drills/board"
)

// A sheet is one A4 page that shows the layers of a board, to lie beside it
// while its keys have no legends. This file lays it out; lengths are in
// millimetres, from the upper left.

const (
	a4Short, a4Long = 210.0, 297.0
	margin          = 10.0
	headHeight      = 10.0 // the board's name
	footLine        = 4.5  // a combo
	betweenColumns  = 8.0
	largestKey      = 14.0
	headUnits       = 0.75 // a layer's heading, in key units
	belowUnits      = 0.45 // free space below a layer, in key units
	noteUnits       = 0.30 // a line of a note, in key units
	letterWide      = 0.70 // width of a letter as a share of its size; on the safe side
)

// sheet is a page laid out.
type sheet struct {
	width, height float64
	unit          float64 // a key, in mm
	title         label
	blocks        []block
	foot          []label
}

// block is one layer.
type block struct {
	head  label
	keys  []cap
	notes []label
}

// cap is one key as it is drawn.
type cap struct {
	x, y, w, h float64
	legend     label
	ringed     bool // it is held for this layer
	faint      bool // it falls through, or does nothing
	never      bool // not to be pressed in vain
}

// label is a line of text by the left end of its base line, or its middle.
type label struct {
	x, y, size float64
	body       string
	face       face
}

type face uint8

const (
	plain  face = iota
	bold        // a heading
	middle      // a legend: x is the middle of the text
	slant       // a legend of a key that no program sees
)

// extent is the size of a board in key units.
func extent(b *board.Board) (w, h float64) {
	for _, k := range b.Keys() {
		w, h = max(w, k.X+k.W), max(h, k.Y+1)
	}
	return w, h
}

// layOut chooses how the blocks fit the page with the largest keys: upright or
// across, in one column or more.
func layOut(b *board.Board, layers []string) *sheet {
	all := plates(b, layers)
	keysWide, keysHigh := extent(b)
	blockWide, blockHigh := keysWide, headUnits+keysHigh
	for _, p := range all {
		blockWide = max(blockWide, keysWide+noteWidth(p), float64(uniseg.StringWidth(p.head))*headUnits*0.6*letterWide)
		blockHigh = max(blockHigh, headUnits+noteBottom(b, p, keysHigh))
	}
	blockHigh += belowUnits
	foot := combosOf(b, layers)
	best, columns := &sheet{}, 1
	for _, size := range [][2]float64{{a4Short, a4Long}, {a4Long, a4Short}} {
		for c := 1; c <= 3; c++ {
			across := size[0] - 2*margin - float64(c-1)*betweenColumns
			down := size[1] - 2*margin - headHeight - float64(len(foot))*footLine
			rows := (len(all) + c - 1) / c
			unit := min(across/(float64(c)*blockWide), down/(float64(rows)*blockHigh), largestKey)
			if unit > best.unit {
				best, columns = &sheet{width: size[0], height: size[1], unit: unit}, c
			}
		}
	}
	best.fill(b, all, columns, blockWide, blockHigh)
	best.title = label{margin, margin + 5, 5, board.Safe(heading(b)), bold}
	best.title.size = min(5, (best.width-2*margin)/(float64(uniseg.StringWidth(best.title.body))*letterWide))
	for i, line := range foot {
		y := best.height - margin - float64(len(foot)-1-i)*footLine - 1
		size := min(3.2, (best.width-2*margin)/(float64(max(uniseg.StringWidth(line), 1))*letterWide))
		best.foot = append(best.foot, label{margin, y, size, line, plain})
	}
	return best
}

func heading(b *board.Board) string {
	if b.Title == "" {
		return b.Name
	}
	return b.Name + "   " + b.Title
}

// fill places the blocks.
func (pg *sheet) fill(b *board.Board, all []plate, columns int, wide, high float64) {
	u := pg.unit
	keysWide, _ := extent(b)
	for i, p := range all {
		left := margin + float64(i%columns)*(wide*u+betweenColumns)
		top := margin + headHeight + float64(i/columns)*high*u
		bl := block{head: label{left, top + 0.5*u, 0.45 * u, p.head, bold}}
		top += headUnits * u
		for _, k := range b.Keys() {
			bl.keys = append(bl.keys, pg.key(b, p, k, left, top))
		}
		for _, n := range spread(b, p) {
			for j, line := range n.lines {
				y := top + (n.top+float64(j+1)*noteUnits)*u
				bl.notes = append(bl.notes, label{left + (keysWide+0.3)*u, y, noteUnits * 0.85 * u, board.Safe(line), plain})
			}
		}
		pg.blocks = append(pg.blocks, bl)
	}
}

// key draws one key of a block whose keys begin at left, top.
func (pg *sheet) key(b *board.Board, p plate, k board.Key, left, top float64) cap {
	u := pg.unit
	l := b.LegendAt(p.layer, p.level, k.Position)
	c := cap{x: left + (k.X+0.04)*u, y: top + (k.Y+0.04)*u, w: (k.W - 0.08) * u, h: 0.92 * u,
		ringed: p.held[k.Position], never: l.Never}
	base := b.Layers()[0]
	switch {
	case c.ringed:
		l = b.Legend(base, k.Position)
	case l.Through || l.Empty() || p.level > 0 && unchanged(b, p, k, l):
		c.faint = true
		return c
	}
	c.legend = fitted(l, c, u)
	return c
}

// unchanged reports whether a level gives nothing of its own on a key: the
// upper case of letters goes without saying.
func unchanged(b *board.Board, p plate, k board.Key, l board.Legend) bool {
	plain := b.Legend(p.layer, k.Position)
	return l.Tap == "" || l.Tap == plain.Tap || p.level == 1 && l.Tap == strings.ToUpper(plain.Tap)
}

// fitted writes the name in full if it is legible on the key, else the short
// form.
func fitted(l board.Legend, c cap, u float64) label {
	t := label{body: l.Tap, face: middle}
	if t.body == "" {
		t.body = l.Hold
	}
	if l.Unseen {
		t.face = slant
	}
	if t.size = sizeFor(t.body, c, u); t.size < 0.2*u {
		t.body = l.Short()
		t.size = sizeFor(t.body, c, u)
	}
	t.x = c.x + c.w/2
	t.y = c.y + c.h/2 + t.size*0.35
	return t
}

func sizeFor(body string, c cap, u float64) float64 {
	cells := float64(max(uniseg.StringWidth(body), 1))
	room := c.w - 0.1*u
	if c.ringed {
		room = c.w * 0.66
	}
	return math.Min(0.42*u, room/(cells*letterWide))
}

// describe says what a sheet shows, for who cannot see it.
func describe(b *board.Board, layers []string) string {
	var heads []string
	for _, p := range plates(b, layers) {
		heads = append(heads, p.head)
	}
	return fmt.Sprintf("The keys of %s: %s", board.Safe(b.Name), strings.Join(heads, "; "))
}
