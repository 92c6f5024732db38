package standing_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/standing"
	"underlay/cmd/underlay/standing/standingtest"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// at is a time of an invented day.
func at(day, hour int) time.Time {
	return standingtest.Start().AddDate(0, 0, day).Add(time.Duration(hour-18) * time.Hour)
}

func add(t *testing.T, v *standingtest.Invented, drills ...journal.Drill) {
	t.Helper()
	if err := v.Add(drills...); err != nil {
		t.Fatal(err)
	}
}

func plain(t *testing.T, v *standingtest.Invented, b int, at time.Time, ms float64, symbols ...board.Symbol) journal.Drill {
	t.Helper()
	d, err := v.Plain(b, at, ms, symbols...)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// A tally that is stored in the middle and gone on with ends as one that
// counted all at once, wherever the middle is.
func TestTallyGoesOnFromWhatItStored(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	practise(t, v, 0, 2)
	practise(t, v, 6, 8)
	drills := slices.Collect(v.Drills())
	whole := replayed(t, v, drills, -1)
	for _, cut := range []int{0, 1, 7, len(drills) / 2, len(drills) - 1, len(drills)} {
		if got := replayed(t, v, drills, cut); got != whole {
			t.Errorf("stored after %d of %d drills: another standing\n%s\n%s", cut, len(drills), got, whole)
		}
	}
}

// replayed counts drills, storing and restoring the tally after some of them,
// and returns the standing as JSON.
func replayed(t *testing.T, v *standingtest.Invented, drills []journal.Drill, cut int) string {
	t.Helper()
	r := v.Reader()
	for i, d := range drills {
		if i == cut {
			r.Store(t)
		}
		r.Learn(d)
	}
	if cut == len(drills) {
		r.Store(t)
	}
	text, err := json.Marshal(standing.New(r.Input(standingtest.Start().AddDate(0, 0, 9))))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Bytes that are no tally leave the tally as it is.
func TestTallyRefusesDamage(t *testing.T) {
	v := invent(t, "split-38")
	practise(t, v, 0, 1)
	in, err := v.Input(at(1, 18))
	if err != nil {
		t.Fatal(err)
	}
	good, err := in.Tally.MarshalBinary()
	if err != nil {
		t.Fatal(err)
	}
	for _, damaged := range [][]byte{nil, {1, 2, 3}, good[:len(good)/2]} {
		if in.Tally.UnmarshalBinary(damaged) == nil {
			t.Errorf("%d bytes of %d are taken for a tally", len(damaged), len(good))
		}
	}
	if s := standing.New(in); s.Boards[0].Tries == 0 {
		t.Error("the tally is gone")
	}
}

// The first meeting of a stroke on a day is told apart from what comes after,
// and the first meeting ever is not among them.
func TestFirstMeetings(t *testing.T) {
	v := invent(t, "split-38")
	add(t, v, plain(t, v, 0, at(0, 18), 900, "(", ")"),
		plain(t, v, 0, at(1, 18), 700, "(", ")"), plain(t, v, 0, at(1, 19), 500, "(", ")", "("))
	days := standingOf(t, v, 2).Days
	if len(days) != 2 {
		t.Fatalf("%d days", len(days))
	}
	if d := days[0]; d.First != 0 || d.MedianMS != 900 || d.Timed != 2 {
		t.Errorf("first day: %+v", d)
	}
	if d := days[1]; d.First != 2 || d.FirstMS != 700 || d.MedianMS != 500 || d.Timed != 3 {
		t.Errorf("second day: %+v", d)
	}
}

// In a drill that keeps no order it is not known which of two was first.
func TestFirstMeetingWithoutOrder(t *testing.T) {
	v := invent(t, "split-38")
	d := plain(t, v, 0, at(1, 18), 700, "(", "(", ")")
	d.Unordered = true
	add(t, v, plain(t, v, 0, at(0, 18), 900, "(", ")"), d)
	if d := standingOf(t, v, 2).Days[1]; d.First != 1 {
		t.Errorf("%d first meetings, want that of ) alone", d.First)
	}
}

// A clock that goes back a day adds to the day that was there, and is told.
func TestClockGoesBack(t *testing.T) {
	v := invent(t, "split-38")
	r := v.Reader()
	for _, when := range []time.Time{at(3, 18), at(4, 18), at(3, 20), at(5, 18)} {
		r.Learn(plain(t, v, 0, when, 400, "(", ")"))
	}
	s := standing.New(r.Input(at(6, 18)))
	if len(s.Days) != 3 || s.Days[0].Strokes != 4 || s.Days[1].Strokes != 2 {
		t.Errorf("days %+v", s.Days)
	}
	if len(s.Notes) != 1 || !strings.Contains(s.Notes[0], "hour once;") {
		t.Errorf("notes %q", s.Notes)
	}
	r.Learn(plain(t, v, 0, at(400, 18), 400, "("))
	s = standing.New(r.Input(at(6, 18)))
	if !slices.ContainsFunc(s.Notes, func(n string) bool { return strings.Contains(n, "after now") }) {
		t.Errorf("practice in the future: notes %q", s.Notes)
	}
}

// A month of errors only has shares of slips and no figure that is no number.
func TestErrorsOnly(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	for day := range 30 {
		d := plain(t, v, 0, at(day, 18), 600, "(", ")", "{", "}", "[", "]", "=", "e", "t", "a")
		for i := range d.Keys {
			d.Keys[i].Got, d.Keys[i].Slip, d.Keys[i].Lost = "x", "layer", 900
		}
		add(t, v, d)
	}
	s := standingOf(t, v, 30)
	if _, err := json.Marshal(s); err != nil {
		t.Fatal(err)
	}
	if s.Slips.Total != 300 || len(s.Slips.Kinds) != 1 || s.Slips.Kinds[0].Kind != "layer" {
		t.Errorf("slips %+v", s.Slips)
	}
	if d := s.Days[29]; d.MedianMS != 0 || d.Timed != 0 || d.Slips != 10 {
		t.Errorf("the last day: %+v", d)
	}
	if s.HoldsBack.Kinds[0].Name != "layer" || s.HoldsBack.Kinds[0].MS.Value <= 0 {
		t.Errorf("what slips cost: %+v", s.HoldsBack.Kinds)
	}
}

// A board with another content is marked on the day it comes, one that is
// only called otherwise keeps its history, and other boards are passed over.
func TestBoardsOfTheJournal(t *testing.T) {
	v := invent(t, "split-38")
	renamed := plain(t, v, 0, at(1, 18), 500, "(")
	renamed.Board = "my-board"
	changed := plain(t, v, 0, at(2, 18), 500, "(")
	changed.Hash = "another"
	other := plain(t, v, 0, at(3, 18), 500, "(")
	other.Board, other.Hash = "unknown", "unknown"
	r := v.Reader()
	for _, d := range []journal.Drill{plain(t, v, 0, at(0, 18), 500, "("), renamed, changed, other} {
		r.Learn(d)
	}
	s := standing.New(r.Input(at(4, 18)))
	if len(s.Days) != 3 || s.Days[0].Changed || s.Days[1].Changed || !s.Days[2].Changed || s.Days[1].Board != "my-board" {
		t.Errorf("days %+v", s.Days)
	}
	if len(s.Notes) != 1 || !strings.Contains(s.Notes[0], `1 drill on "unknown" is not counted: `) {
		t.Errorf("notes %q", s.Notes)
	}
	in := r.Input(at(4, 18))
	in.Renamed = []course.Renamed{{Was: "before\x1b", Now: "split-38"}}
	if n := standing.New(in).Notes; len(n) != 2 || !strings.HasPrefix(n[0], `"split-38" has the strokes that "before\x1b" had and goes on`) {
		t.Errorf("notes of a new name %q", n)
	}
}
