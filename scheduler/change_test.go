package scheduler_test

import (
	"math"
	"testing"

	"underlay/scheduler"
)

// moved is the world after "(" and "$" have changed places: their old strokes
// are retired and have ids at the end.
func moved(w *world) (after *world, oldParen, oldDollar int) {
	a := *w
	a.strokes = append([]scheduler.Stroke(nil), w.strokes...)
	x, y := w.by[0]['('], w.by[0]['$']
	for _, id := range []int{x, y} {
		old := w.strokes[id]
		old.Retired, old.Other, old.Freq = true, -1, 0
		a.strokes = append(a.strokes, old)
	}
	oldParen, oldDollar = len(a.strokes)-2, len(a.strokes)-1
	swap := func(id, from, was int) {
		s := &a.strokes[id]
		f := w.strokes[from]
		s.Layer, s.Hand, s.Finger, s.Row, s.Col, s.Was = f.Layer, f.Hand, f.Finger, f.Row, f.Col, was
	}
	swap(x, y, oldParen)
	swap(y, x, oldDollar)
	return &a, oldParen, oldDollar
}

// replay tells what was typed on the old board: tries of retired strokes where
// the map says so.
func replay(s *scheduler.Scheduler, tries []scheduler.Try, ids map[int]int) {
	for _, t := range tries {
		if id, ok := ids[t.ID]; ok {
			t.ID = id
		}
		if id, ok := ids[t.Pressed]; ok {
			t.Pressed = id
		}
		s.Observe(t)
	}
}

// Strokes that stay keep their skill; those that moved start afresh, but not
// from nothing; the old ones are kept and not drilled; putting the board back
// puts all back.
func TestBoardChanges(t *testing.T) {
	w := newWorld(code)
	var tries []scheduler.Try
	r := newReal(w, 1)
	p := newPractice(w, newTypist("gradual", w.work, 1), r, 1)
	p.each = func(k scheduler.Try) { tries = append(tries, k) }
	for d := range 8 {
		p.day(d)
	}
	before := r.s
	a, oldParen, oldDollar := moved(w)
	paren, dollar := w.by[0]['('], w.by[0]['$']
	after := newReal(a, 1).s
	replay(after, tries, map[int]int{paren: oldParen, dollar: oldDollar})

	at := morning(7)
	for id := range w.strokes {
		if id == paren || id == dollar {
			continue
		}
		b, l := before.Level(id, at), after.Level(id, at)
		if math.Abs(math.Log(b.MS/l.MS)) > 1e-9 || b.Tries != l.Tries || before.State(id, at) != after.State(id, at) {
			t.Fatalf("stroke %d was %+v, is %+v", id, b, l)
		}
	}
	if b, l := before.Level(paren, at), after.Level(oldParen, at); math.Abs(math.Log(b.MS/l.MS)) > 1e-9 || b.Tries != l.Tries {
		t.Errorf("( was %+v, its retired stroke is %+v", b, l)
	}
	if w := after.Why(paren, at); w.Reason != scheduler.Moved || w.Tries != 0 {
		t.Errorf("( has reason %+v", w)
	}
	fresh := a.strokes[paren]
	fresh.Was = -1
	b := *a
	b.strokes = append([]scheduler.Stroke(nil), a.strokes...)
	b.strokes[paren] = fresh
	without := newReal(&b, 1).s
	replay(without, tries, map[int]int{paren: oldParen, dollar: oldDollar})
	if carried, plain := after.Level(paren, at).MS, without.Level(paren, at).MS; carried >= plain {
		t.Errorf("( in its new place: %.0f ms with what carries over, %.0f without", carried, plain)
	}
	if l := after.Level(paren, at); l.MS <= before.Level(paren, at).MS {
		t.Errorf("( is expected as fast in its new place as in its old: %+v", l)
	}
	for _, e := range session(after, at, 8*60e9, 400) {
		for _, id := range e.Items {
			if a.strokes[id].Retired {
				t.Fatal("a retired stroke is asked for")
			}
		}
	}
}

// Presses of the old place are noticed, and forgotten as the new one is typed.
func TestPullToTheOldPlace(t *testing.T) {
	w := newWorld(code)
	a, oldParen, _ := moved(w)
	paren, dollar := w.by[0]['('], w.by[0]['$']
	s := newReal(a, 1).s
	at := tell(s, oldParen, start(), 400, 30, nil)
	at = tell(s, paren, at.AddDate(0, 0, 1), 600, 4, nil)
	if got := s.Why(paren, at).Reason; got == scheduler.Pull {
		t.Error("a pull without a press of the old place")
	}
	// What is now at the old place of ( is $.
	at = tell(s, paren, at, 600, 3, func(t *scheduler.Try) { t.Wrong, t.Pressed = true, dollar })
	if got := s.Why(paren, at).Reason; got != scheduler.Pull {
		t.Errorf("after three presses of the old place: %q", got)
	}
	at = tell(s, paren, at, 500, 40, nil)
	if got := s.Why(paren, at).Reason; got == scheduler.Pull {
		t.Error("the pull is never forgotten")
	}
}
