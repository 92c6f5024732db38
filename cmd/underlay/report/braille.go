package report

import (
	"math"
	"strings"
)

// dots is a picture of braille cells, each two dots wide and four high.
type dots struct {
	width, height int // in cells
	cells         []rune
}

func newDots(width, height int) *dots {
	return &dots{width, height, make([]rune, width*height)}
}

// set marks a dot; x counts from the left, y from the top. Dots outside are dropped.
func (d *dots) set(x, y int) {
	if x < 0 || y < 0 || x >= 2*d.width || y >= 4*d.height {
		return
	}
	// Unicode, chapter 21.1: bits 0 to 2 go down the left column, 3 to 5 down
	// the right one, 6 and 7 are the fourth row.
	bit := [4][2]uint{{0, 3}, {1, 4}, {2, 5}, {6, 7}}[y%4][x%2]
	d.cells[y/4*d.width+x/2] |= 1 << bit
}

// line marks the dots between two dots.
func (d *dots) line(x0, y0, x1, y1 int) {
	steps := max(abs(x1-x0), abs(y1-y0), 1)
	for i := range steps + 1 {
		f := float64(i) / float64(steps)
		d.set(x0+int(math.Round(f*float64(x1-x0))), y0+int(math.Round(f*float64(y1-y0))))
	}
}

func abs(x int) int { return max(x, -x) }

// lines returns the picture, a line of text for each row of cells.
func (d *dots) lines() []string {
	var out []string
	for y := range d.height {
		var b strings.Builder
		for _, c := range d.cells[y*d.width : (y+1)*d.width] {
			if c == 0 {
				b.WriteByte(' ')
			} else {
				b.WriteRune('⠀' + c)
			}
		}
		out = append(out, strings.TrimRight(b.String(), " "))
	}
	return out
}
