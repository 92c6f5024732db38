package scheduler

import (
	"math"
	"testing"
	"time"
)

// The pace of a board is the mean of what its strokes are expected to take, by
// their use; that of a part likewise.
func TestPaceIsTheMeanOfItsStrokes(t *testing.T) {
	strokes := []Stroke{
		{Layer: 0, Finger: 3, Freq: .5, Other: -1, Was: -1}, {Layer: 1, Finger: 2, Freq: .3, Other: -1, Was: -1},
		{Layer: 1, Finger: 1, Freq: .2, Other: -1, Was: -1}, {Board: 1, Finger: 1, Freq: 1, Other: -1, Was: -1},
	}
	s := New(strokes, nil, Options{})
	at := time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)
	for i := range 60 {
		at = at.Add(time.Second)
		s.Observe(Try{ID: i % 4, Prev: -1, At: at, MS: 300 + 100*float64(i%4), Pressed: i % 4})
	}
	for name, in := range map[string]func(id int) bool{
		"the board": func(id int) bool { return id < 3 }, "a layer": func(id int) bool { return id == 1 || id == 2 }, "a stroke": func(id int) bool { return id == 2 },
	} {
		sum, share := 0.0, 0.0
		for id := range 3 {
			if in(id) {
				sum += strokes[id].Freq * s.Expect(id, at).MS
				share += strokes[id].Freq
			}
		}
		if got := s.PaceOf(at, in); math.Abs(got.MS-sum/share) > 1e-9 || got.SD <= 0 {
			t.Errorf("%s: %+v, want %v ms", name, got, sum/share)
		}
	}
	if got, want := s.Pace(0, at).MS, s.PaceOf(at, func(id int) bool { return id < 3 }).MS; got != want {
		t.Errorf("the board: %v and %v", got, want)
	}
	if got := s.PaceOf(at, func(int) bool { return false }); got.MS != 0 {
		t.Errorf("of nothing: %+v", got)
	}
	one, part := s.Expect(2, at), s.PaceOf(at, func(id int) bool { return id == 2 })
	if math.Abs(one.SD-part.SD) > 1e-12 {
		t.Errorf("one stroke: spread %v and %v", one.SD, part.SD)
	}
}
