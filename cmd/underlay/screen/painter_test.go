package screen

import (
	"testing"

	"underlay/drills/board"
)

// What is shown already is not sent again; one key changes few cells.
func TestPainterSendsWhatHasChanged(t *testing.T) {
	r := newRecorder()
	if err := r.Init(); err != nil {
		t.Fatal(err)
	}
	defer r.Fini()
	r.SetSize(80, 24)
	s := sit(t, trialPlanner(t)).press(board.Enter)
	p := newPainter(r, newTheme(Options{Colours: "none", Env: noEnv}, 256))
	p.paint(s.m.View())
	if r.shows != 1 {
		t.Fatalf("shown %d times, want once", r.shows)
	}
	p.paint(s.m.View())
	if r.shows != 1 {
		t.Error("the same view is sent twice")
	}
	before := append([]cell(nil), p.shown.cells...)
	s.press("i")
	p.paint(s.m.View())
	if r.shows != 2 {
		t.Error("a changed view is not sent")
	}
	changed := 0
	for i, c := range p.shown.cells {
		if c != before[i] {
			changed++
		}
	}
	if changed == 0 || changed > 20 {
		t.Errorf("%d cells changed after one steady stroke, want a few", changed)
	}
}
