package standingtest

import (
	"testing"
	"time"

	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/standing"
	"underlay/scheduler/journal"
)

// Reader learns from drills that need not be in the history, one by one.
type Reader struct {
	v      *Invented
	course *course.Course
	watch  *watch
}

// Reader returns one that has learned from nothing.
func (v *Invented) Reader() *Reader {
	w := &watch{}
	c := v.config
	c.Watch = w
	k, err := course.New(c)
	if err != nil {
		panic(err) // the same as New, which did not fail
	}
	return &Reader{v, k, w}
}

// Learn counts a drill and lets the model learn from it.
func (r *Reader) Learn(d journal.Drill) {
	r.watch.Drill(d)
	r.course.Observe(d)
}

// Store lets the tally go through its stored form.
func (r *Reader) Store(t testing.TB) {
	t.Helper()
	r.watch.tally.Finish() // as before the cache is kept
	b, err := r.watch.tally.MarshalBinary()
	if err != nil {
		t.Fatal(err)
	}
	r.watch.tally = standing.NewTally(r.watch, r.course.Scheduler(), r.watch.strokes)
	if err := r.watch.tally.UnmarshalBinary(b); err != nil {
		t.Fatal(err)
	}
}

// Input is what a standing at a time is worked out from.
func (r *Reader) Input(now time.Time) standing.Input {
	r.watch.tally.Finish()
	return standing.Input{Now: now, Boards: r.v.Boards, Strokes: r.watch.strokes, Model: r.course.Scheduler(), Tally: r.watch.tally}
}
