package session

import (
	"strings"
	"testing"
	"time"
)

// Turned page by page at any width, every line of the help is in one of the
// windows, and turning back leads to the top again.
func TestPagesLeaveNothingOut(t *testing.T) {
	const rows = 16 // of the smallest window
	for width := 60; width <= 120; width += 7 {
		m := &Model{width: width}
		p := &page{view: PageView{Lines: helpLines()}}
		last := len(p.view.Lines) - 1
		seen := 0 // lines up to here were in a window
		for range 100 {
			if p.view.Top > seen {
				t.Fatalf("width %d: line %d is in no window", width, seen)
			}
			for seen < len(p.view.Lines) && rowsOf(p.view.Lines[p.view.Top:seen+1], width-2) <= rows {
				seen++
			}
			p.key(m, Key{Symbol: "Space", At: time.Time{}})
		}
		if seen <= last {
			t.Errorf("width %d: the end is never seen, only %d of %d lines", width, seen, last+1)
		}
		for range 100 {
			p.key(m, Key{Symbol: "b"})
		}
		if p.view.Top != 0 {
			t.Errorf("width %d: turning back ends at line %d", width, p.view.Top)
		}
	}
}

// rowsOf counts rows broken at words.
func rowsOf(lines []string, width int) int {
	n := 0
	for _, l := range lines {
		x := 0
		n++
		for w := range strings.FieldsSeq(l) {
			if x += len([]rune(w)) + 1; x > width+1 {
				x, n = len([]rune(w))+1, n+1
			}
		}
	}
	return n
}
