package screen

import (
	"fmt"
	"testing"

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
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

// What was sent bit by bit is, cell for cell, what sending all of it shows.
func TestPainterSendsEnough(t *testing.T) {
	painted, whole := newRecorder(), newRecorder()
	for _, r := range []*recorder{painted, whole} {
		if err := r.Init(); err != nil {
			t.Fatal(err)
		}
		defer r.Fini()
		r.SetSize(80, 24)
	}
	th := newTheme(Options{Colours: "dark", Env: noEnv}, 256)
	p := newPainter(painted, th)
	r := newRoll(7, sessiontest.Trial(t), sessiontest.Standard(t))
	var m *session.Model
	for range 1000 {
		if m == nil {
			m = session.New(trialPlanner(t), session.Options{Session: "p", Settings: settings(), Now: r.at})
		}
		if r.IntN(50) == 0 {
			w, h := 60+r.IntN(70), 20+r.IntN(25)
			painted.SetSize(w, h)
			whole.SetSize(w, h)
		}
		if r.answer(t, m, m.Update(r.event())) {
			m = nil
			continue
		}
		p.paint(m.View())
		q := newPainter(whole, th)
		q.paint(m.View())
		if d := difference(painted, whole); d != "" {
			t.Fatalf("%s; bit by bit:\n%s\nat once:\n%s", d, painted.shown(), whole.shown())
		}
	}
}

// difference says where two screens differ, or "". The second cell of a wide
// character may hold anything.
func difference(a, b *recorder) string {
	one, w, _ := a.GetContents()
	two, _, _ := b.GetContents()
	if len(one) != len(two) {
		return "the sizes differ"
	}
	for i := range one {
		if i%w > 0 && cells(string(one[i-1].Runes)) > 1 {
			continue
		}
		if string(one[i].Runes) != string(two[i].Runes) || one[i].Style != two[i].Style {
			return fmt.Sprintf("column %d of row %d differs", i%w, i/w)
		}
	}
	return ""
}
