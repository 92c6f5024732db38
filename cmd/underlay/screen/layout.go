package screen

import (
	"math"

	"underlay/drills/board"
)

// scale is the size of a key in cells.
type scale struct{ w, h int }

// scales are the sizes that a picture comes in, the largest first. With two
// lines to a key, half a key of column stagger is one line.
func scales() [3]scale { return [3]scale{{7, 3}, {5, 2}, {4, 2}} }

// rect is a key's place in a picture.
type rect struct{ x, y, w, h int }

// layout is where the keys of a picture go.
type layout struct {
	rects []rect // in the order of the keys
	w, h  int
	scale scale
}

// arrange places keys at a scale. Thumb keys start on a line of their own
// below the columns that they lie under.
func arrange(keys []board.Key, s scale, rects []rect) layout {
	l := layout{rects: rects[:0], scale: s}
	minX, minY := math.Inf(1), math.Inf(1)
	for _, k := range keys {
		minX, minY = min(minX, k.X), min(minY, k.Y)
	}
	for _, k := range keys {
		left, right := cellsAt(k.X-minX, s.w), cellsAt(k.X-minX+max(k.W, .25), s.w)
		r := rect{left, cellsAt(k.Y-minY, s.h), max(1, right-left), s.h}
		l.rects = append(l.rects, r)
		l.w, l.h = max(l.w, r.x+r.w), max(l.h, r.y+1)
	}
	return l
}

func cellsAt(units float64, n int) int { return int(math.Round(units * float64(n))) }

// choose returns the largest layout that fits, or false: then words have to do.
func choose(keys []board.Key, w, h int, rects []rect) (layout, bool) {
	for _, s := range scales() {
		if l := arrange(keys, s, rects); len(keys) > 0 && l.w <= w && l.h <= h {
			return l, true
		}
	}
	return layout{}, false
}

// places remembers the last layout, since a drill draws the same one over and
// over.
type places struct {
	board *board.Board
	w, h  int
	last  layout
	ok    bool
}

// of returns the largest layout of a board that fits, or false.
func (m *places) of(b *board.Board, w, h int) (layout, bool) {
	if m.board != b || m.w != w || m.h != h {
		m.board, m.w, m.h = b, w, h
		m.last, m.ok = choose(b.Keys(), w, h, nil)
	}
	return m.last, m.ok
}
