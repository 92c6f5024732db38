package standingtest

import (
	"testing"

	"underlay/cmd/underlay/standing"
)

// History is an Invented of one test, which fails where that does.
type History struct {
	*Invented
	t testing.TB
}

// For begins a history on embedded boards for a test.
func For(t testing.TB, boards ...string) History {
	t.Helper()
	v, err := New(boards...)
	if err != nil {
		t.Fatal(err)
	}
	return History{v, t}
}

// Practised is the history with more days, each span from one up to another.
func (h History) Practised(spans ...[2]int) History {
	h.t.Helper()
	for _, s := range spans {
		if err := h.Practise(s[0], s[1]); err != nil {
			h.t.Fatal(err)
		}
	}
	return h
}

// On is where the typist stands on a day, counted from 0 at Start.
func (h History) On(day int) standing.Standing {
	h.t.Helper()
	s, err := h.Standing(Start().AddDate(0, 0, day))
	if err != nil {
		h.t.Fatal(err)
	}
	return s
}
