package scheduler

import (
	"reflect"
	"testing"
	"time"
)

// letters are strokes of one layer, as common as each other, with lines of them.
func letters(n int, lines ...[]int) *Scheduler {
	strokes := make([]Stroke, n)
	for id := range strokes {
		strokes[id] = Stroke{Finger: id % 4, Col: id, Freq: 1, Other: -1, Was: -1, Text: true}
	}
	s := New(strokes, lines, Options{Seed: 1})
	s.Begin(time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC), time.Minute)
	return s
}

// Pieces go on with the stroke that the last one ended with, or with one that
// comes after it in the code; the same pick never follows itself while there is another.
func TestPiecesFollowAsCodeDoes(t *testing.T) {
	s := letters(10, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9})
	overlapping := piece{3, []int{2, 3, 4}}
	following := piece{4, []int{3, 4, 5}}
	foreign := piece{8, []int{7, 8, 9}}
	same := piece{1, []int{2, 1, 0}}
	for _, c := range []struct {
		what   string
		pieces []piece
		want   int
	}{
		{"overlap before what follows", []piece{foreign, following, overlapping}, 2},
		{"what follows before what is foreign", []piece{foreign, following}, 1},
		{"not the same pick", []piece{same, foreign}, 1},
		{"the same pick if there is no other", []piece{same}, 0},
	} {
		if got := s.following(c.pieces, 2, 1); got != c.want {
			t.Errorf("%s: piece %d, not %d", c.what, got, c.want)
		}
	}
}

// Woven drills have hardly a step from stroke to stroke that code does not have.
func TestWovenDrillsGoOnAsCodeDoes(t *testing.T) {
	line := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 0, 2, 4, 6, 8, 1, 3, 5, 7, 9}
	s := letters(10, line, line)
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	now := seconds(at)
	s.price(0, at)
	picks := s.pick(30000, now, s.returns)
	woven, out := s.weave(picks, 30000, now, 0)
	foreign := 0
	for k := 1; k < len(out); k++ {
		if s.pool.pairs[pair{out[k-1], out[k]}] == 0 {
			foreign++
		}
	}
	if len(out) < 20 || foreign*8 > len(out) {
		t.Errorf("%d of %d steps are foreign to the code: %v", foreign, len(out), out)
	}
	if len(woven) < leastPicks {
		t.Errorf("%d picks were woven", len(woven))
	}
}

// A drill takes the time that there is, as far as the model can tell, and less
// when the last ones took longer than was expected of them.
func TestDrillsFitTheTime(t *testing.T) {
	line := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}
	s := letters(10, line)
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	s.price(0, at)
	drill := func() (ms float64) {
		var e Exercise
		s.drill(&e, 15*time.Second, seconds(at), s.returns, 0)
		return s.took(e.Items)
	}
	usual := drill()
	if usual < 7500 || usual > 15000 {
		t.Errorf("a drill for 15 s takes %.0f ms", usual)
	}
	left := 10 * time.Minute
	s.sitting.given, s.sitting.expected = left, 10000
	for range 5 {
		left -= 20 * time.Second
		s.sitting.watch(left)
		s.sitting.expected = 10000
	}
	if slow := drill(); slow > .7*usual {
		t.Errorf("when all takes twice as long, a drill has %.0f ms, not %.0f", slow, usual)
	}
}

// The lines for a board are in the order of their length.
func TestLinesAreInOrder(t *testing.T) {
	s := letters(10, make([]int, 30), make([]int, 9), make([]int, 20), make([]int, 3))
	if got := s.pool.usable[0]; !reflect.DeepEqual(got, []int{1, 2, 0}) {
		t.Errorf("usable lines %v", got)
	}
}
