package session_test

import (
	"errors"
	"slices"
	"testing"

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
	"underlay/drills/board"
)

// Progress is read while the sitting goes on: the page waits for it, and a
// report that comes after the page was left shows nowhere.
func TestProgressIsWaitedFor(t *testing.T) {
	b := sessiontest.Trial(t)
	m := session.New(one(t, line(b, "a")), session.Options{Session: "s1", Reports: true, Now: sessiontest.Noon()})
	press := func(k board.Symbol) []session.Effect {
		return m.Update(session.Key{Symbol: k, At: sessiontest.Noon()})
	}
	told := session.Reported{Lines: []string{"22 of 30 strokes steady"}, At: sessiontest.Noon()}
	asked := func(effects []session.Effect) {
		t.Helper()
		if len(effects) != 1 || effects[0] != (session.Report{Width: 78}) {
			t.Fatalf("asked for %+v, want a report", effects)
		}
	}
	asked(press("p"))
	if v := m.View(); v.Title != "progress" || slices.Equal(v.Page.Lines, told.Lines) {
		t.Fatalf("before the report: %q with %q", v.Title, v.Page.Lines)
	}
	m.Update(told)
	if v := m.View(); !slices.Equal(v.Page.Lines, told.Lines) {
		t.Errorf("the report is told as %q", v.Page.Lines)
	}
	press(board.Escape)
	asked(press("p"))
	press(board.Escape)
	m.Update(told)
	if v := m.View(); v.Today == nil {
		t.Errorf("a late report leads to %q", v.Title)
	}
}

// A drill that could not be saved at once goes with its board, also when other
// boards have been chosen since.
func TestDrillIsSavedWithItsBoard(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, line(b, "a"), line(b, "b")))
	x.press(board.Enter)
	x.fail = errors.New("no space left on device")
	x.press("a")
	x.send(session.Configured{Settings: session.Settings{Minutes: 8, Boards: []string{"ansi-61"}}, At: x.at,
		Planner: &sessiontest.Planner{On: []*board.Board{sessiontest.Standard(t)}}})
	x.title("done")
	x.fail = nil
	x.wait(4e9)
	if len(x.saved) != 1 || x.boards[0].Hash() != b.Hash() || x.saved[0].Hash != b.Hash() {
		t.Errorf("saved %+v on %v", x.saved, x.boards)
	}
}
