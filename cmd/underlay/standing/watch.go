package standing

import (
	"time"

	"underlay/cmd/underlay/course"
	"underlay/scheduler/journal"
)

// Watch counts the journal for a course; it is a [course.Watch]. The zero
// value is ready to be handed to one.
type Watch struct {
	course  *course.Course
	strokes []Stroke
	tally   *Tally
}

// Start begins anew, with the strokes of a course.
func (w *Watch) Start(c *course.Course) {
	w.course, w.strokes = c, nil
	for id := range c.Strokes() {
		st := c.Stroke(id)
		w.strokes = append(w.strokes, Stroke{Stroke: c.Features(id), Symbol: st.Symbol, Keys: st.Stroke})
	}
	w.tally = NewTally(w, c.Scheduler(), w.strokes)
}

// Drill counts a drill.
func (w *Watch) Drill(d journal.Drill) { w.tally.Add(d) }

// MarshalBinary writes what was counted.
func (w *Watch) MarshalBinary() ([]byte, error) { return w.tally.MarshalBinary() }

// UnmarshalBinary puts back what MarshalBinary wrote.
func (w *Watch) UnmarshalBinary(b []byte) error { return w.tally.UnmarshalBinary(b) }

// Board finds the board of a drill.
func (w *Watch) Board(d journal.Drill) (int, bool) { return w.course.BoardOf(d) }

// Stroke finds the stroke of a key.
func (w *Watch) Stroke(b int, k journal.Key) (int, bool) {
	return w.course.Find(b, k.Symbol, k.Stroke)
}

// Input closes the day that is being counted, and returns what a standing at
// a time is worked out from.
func (w *Watch) Input(now time.Time) Input {
	w.tally.Finish()
	return Input{Now: now, Boards: w.course.Boards(), Strokes: w.strokes, Follows: w.course.Follows(0), Model: w.course.Scheduler(), Tally: w.tally, Renamed: w.course.Renamed()}
}
