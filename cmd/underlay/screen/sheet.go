package screen

import "github.com/rivo/uniseg"

// look says how a piece of text stands out. The theme says what that means on
// a terminal.
type look uint8

const (
	plain  look = iota
	strong      // titles, what to read first
	faint       // the underlay, hints
	accent      // what to press in menus
	target      // the key to press: reversed
	hold        // a key to hold
	lit         // a legend to be seen
	slip        // what went wrong
	wrong       // a wrong symbol that stands
	chosen      // the line under the cursor of a list
	looks       // their number
)

// cell is one cell of a sheet. The second cell of a wide grapheme is empty.
type cell struct {
	text string
	look look
}

// sheet is a window's content before it goes to the terminal. Whatever is put
// outside of it is lost without harm.
type sheet struct {
	w, h   int
	ascii  bool // our own signs are written in ASCII
	cells  []cell
	used   []bool // rows that are not blank
	cx, cy int    // the cursor; cx < 0: hidden
}

func (s *sheet) resize(w, h int) {
	w, h = max(w, 0), max(h, 0)
	if s.w == w && s.h == h {
		return
	}
	s.w, s.h = w, h
	s.cells, s.used = make([]cell, w*h), make([]bool, h)
	for y := range s.used {
		s.blank(y)
	}
}

// row returns the cells of a row.
func (s *sheet) row(y int) []cell { return s.cells[y*s.w : (y+1)*s.w] }

func (s *sheet) blank(y int) {
	row := s.row(y)
	for x := range row {
		row[x] = cell{" ", plain}
	}
	s.used[y] = false
}

func (s *sheet) clear() {
	for y, used := range s.used {
		if used {
			s.blank(y)
		}
	}
	s.cx, s.cy = -1, -1
}

// put writes text from x on and returns where it ended. Text is cut at the
// right edge; a wide grapheme is not halved.
func (s *sheet) put(x, y int, text string, l look) int {
	return s.putWithin(x, y, s.w, text, l)
}

// putWithin writes text that ends before column end.
func (s *sheet) putWithin(x, y, end int, text string, l look) int {
	end = min(end, s.w)
	state := -1
	for text != "" {
		var g string
		var width int
		if c := text[0]; c >= ' ' && c < 0x7f && (len(text) == 1 || text[1] < 0x80) {
			g, text, width, state = text[:1], text[1:], 1, -1
		} else {
			g, text, width, state = uniseg.FirstGraphemeClusterInString(text, state)
		}
		if width == 0 {
			continue
		}
		if s.ascii && g[0] >= 0x80 {
			g = inASCII(g)
		}
		if x+width > end {
			return x
		}
		s.set(x, y, g, width, l)
		x += width
	}
	return x
}

func (s *sheet) set(x, y int, g string, width int, l look) {
	if y < 0 || y >= s.h || x < 0 || x+width > s.w {
		return
	}
	s.used[y] = true
	row := s.row(y)
	row[x] = cell{g, l}
	for i := 1; i < width; i++ {
		row[x+i] = cell{"", l}
	}
}

// cursor shows the cursor at a cell.
func (s *sheet) cursor(x, y int) {
	if x >= 0 && x < s.w && y >= 0 && y < s.h {
		s.cx, s.cy = x, y
	}
}

// cells returns how many cells text takes.
func cells(text string) int {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c >= 0x7f {
			return uniseg.StringWidth(text)
		}
	}
	return len(text)
}
