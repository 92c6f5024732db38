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
	course *course.Course
	watch  *standing.Watch
}

// Reader returns one that has learned from nothing.
func (v *Invented) Reader() *Reader {
	w := &standing.Watch{}
	c := v.config
	c.Watch = w
	k, err := course.New(c)
	if err != nil {
		panic(err) // the same as New, which did not fail
	}
	return &Reader{k, w}
}

// Learn counts a drill and lets the model learn from it.
func (r *Reader) Learn(d journal.Drill) {
	r.watch.Drill(d)
	r.course.Observe(d)
}

// Store lets the tally go through its stored form.
func (r *Reader) Store(t testing.TB) {
	t.Helper()
	r.Input(time.Time{}) // closes the day, as is done before the cache is kept
	b, err := r.watch.MarshalBinary()
	if err != nil {
		t.Fatal(err)
	}
	r.watch.Start(r.course)
	if err := r.watch.UnmarshalBinary(b); err != nil {
		t.Fatal(err)
	}
}

// Input is what a standing at a time is worked out from.
func (r *Reader) Input(now time.Time) standing.Input { return r.watch.Input(now) }
