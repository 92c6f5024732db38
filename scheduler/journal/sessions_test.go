package journal_test

import (
	"reflect"
	"testing"
	"time"

	"underlay/scheduler/journal"
)

func TestSessions(t *testing.T) {
	early, late, other := drill(1), drill(9), drill(5)
	early.Session, late.Session, other.Session = "a", "a", "b"
	late.Board, late.Kind = "c", "line"
	late.Keys[0].Lost = 1000
	// The later half of a came from another machine, whose file is read first.
	h, err := journal.Read(dirOf(map[string][]byte{"a.journal": fileOf(t, "x", late), "b.journal": fileOf(t, "y", early, other, journal.Strike{At: start(), Session: "b"})}))
	must(t, err)
	got, err := h.Sessions()
	must(t, err)
	want := []journal.Session{
		{Name: "a", Start: early.At, Boards: []string{"b", "c"}, Kinds: []string{"pair", "line"}, Drills: 2, Strokes: 4, Wrong: 2, MS: 312.4 + 201 + 312.4 + 209 + 1000},
		{Name: "b", Start: other.At, Boards: []string{"b"}, Kinds: []string{"pair"}, Drills: 1, Strokes: 2, Wrong: 1, MS: 312.4 + 205, Struck: true},
	}
	for i := range got {
		got[i].Start, got[i].MS = got[i].Start.In(time.UTC), float64(int(got[i].MS*10+.5))/10
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestAllTellsWhatIsStruck(t *testing.T) {
	h, err := journal.Read(dirOf(map[string][]byte{"a.journal": fileOf(t, "a", drill(0), drill(1), journal.Strike{At: start(), Session: "d0"})}))
	must(t, err)
	var got []string
	for d, struck := range h.All() {
		if struck != (d.Session == "d0") {
			t.Errorf("%s: struck is %v", d.Session, struck)
		}
		got = append(got, d.Session)
	}
	if join(got) != "d0 d1" {
		t.Errorf("all are %q", got)
	}
}
