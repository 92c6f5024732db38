package screen

import (
	"underlay/cmd/underlay/session"
)

// The smallest window that a sitting is shown in.
const (
	minWidth  = 60
	minHeight = 20
)

func fits(w, h int) bool { return w >= minWidth && h >= minHeight }

// draw draws a view on a sheet.
func draw(s *sheet, v session.View, ascii bool) {
	if !fits(s.w, s.h) {
		drawTooSmall(s)
		return
	}
	s.put(1, 0, v.Title, strong)
	s.put(max(0, s.w-1-cells(v.Aside)), 0, v.Aside, plain)
}

func drawTooSmall(s *sheet) {
	for i, l := range []string{"The window is too small.", "underlay needs 60 × 20", "and waits until it has that."} {
		s.put(1, i, l, plain)
	}
}
