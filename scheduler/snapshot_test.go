package scheduler_test

import (
	"math"
	"testing"

	"underlay/scheduler"
)

// alike fails where two schedulers do not expect the same, to 1e-9.
func alike(t *testing.T, w *world, a, b *scheduler.Scheduler, day int) {
	t.Helper()
	at := morning(day)
	for id := range w.strokes {
		x, y := a.Level(id, at), b.Level(id, at)
		if math.Abs(math.Log(x.MS/y.MS)) > 1e-9 || math.Abs(x.Err-y.Err) > 1e-9 || math.Abs(math.Log(x.Hi/y.Hi)) > 1e-9 ||
			x.Tries != y.Tries || !x.Last.Equal(y.Last) || a.State(id, at) != b.State(id, at) || a.Why(id, at) != b.Why(id, at) {
			t.Fatalf("stroke %d: %+v and %+v", id, x, y)
		}
	}
	x, y := a.Course(0), b.Course(0)
	if len(x) != len(y) {
		t.Fatalf("%d and %d sessions", len(x), len(y))
	}
	for i := range x {
		if math.Abs(math.Log(x[i].MS/y[i].MS)) > 1e-9 {
			t.Fatalf("session %d: %+v and %+v", i, x[i], y[i])
		}
	}
}

// Practised online, rebuilt from the tries, and restored from a snapshot in the
// middle are one and the same.
func TestRebuiltIsOnline(t *testing.T) {
	w := newWorld(code)
	r := newReal(w, 1)
	var tries []scheduler.Try
	var middle []byte
	p := newPractice(w, newTypist("searcher", w.work, 1), r, 1)
	p.each = func(k scheduler.Try) {
		if tries = append(tries, k); len(tries) == 3000 {
			middle = r.s.Snapshot()
		}
	}
	for d := range 10 {
		p.day(d)
	}
	rebuilt := newReal(w, 7).s
	for _, k := range tries {
		rebuilt.Observe(k)
	}
	alike(t, w, r.s, rebuilt, 10)
	restored := newReal(w, 8).s
	if err := restored.Restore(middle); err != nil {
		t.Fatal(err)
	}
	for _, k := range tries[3000:] {
		restored.Observe(k)
	}
	alike(t, w, r.s, restored, 10)
}

// A snapshot that is damaged, short, or of other strokes changes nothing.
func TestSnapshotsThatDoNotFit(t *testing.T) {
	w := newWorld(code)
	s, _ := practised(w, 2, 3)
	good := s.Snapshot()
	fresh := newReal(w, 1).s
	for n := range len(good) {
		if n%97 == 0 || n < 20 {
			bad := append([]byte(nil), good...)
			bad[n] ^= 0x40
			if fresh.Restore(bad) == nil {
				t.Fatalf("a snapshot with byte %d changed is taken", n)
			}
			if fresh.Restore(good[:n]) == nil {
				t.Fatalf("a snapshot of %d bytes is taken", n)
			}
		}
	}
	alike(t, w, fresh, newReal(w, 1).s, 3)
	other := newWorld(otherCode())
	if newReal(other, 1).s.Restore(good) == nil {
		t.Error("a snapshot of other frequencies is taken")
	}
	if err := fresh.Restore(good); err != nil {
		t.Error(err)
	}
	alike(t, w, s, fresh, 3)
}
