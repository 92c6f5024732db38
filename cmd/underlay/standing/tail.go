package standing

import (
	"time"

	"underlay/scheduler"
	"underlay/scheduler/journal"
)

const (
	tailKept   = 800 // the latest latencies
	tailNeeded = 200
	tailEvery  = 3 // of so many latencies one is looked at
)

// tailCount keeps, as a ring, by how many times the latest latencies were as
// long as the median that was expected of their strokes.
type tailCount struct {
	Ring  []float32
	Total int // put into the ring
	Met   int
}

// tail looks at how long a latency was for its stroke.
func (t *Tally) tail(id int, at time.Time, k journal.Key) {
	c := &t.c.Tail
	if c.Met++; t.model == nil || !timed(k) || c.Met%tailEvery != 0 {
		return
	}
	l := t.model.Level(id, at)
	if l.Tries == 0 {
		return
	}
	ratio := float32(k.MS / l.MS)
	if len(c.Ring) < tailKept {
		c.Ring = append(c.Ring, ratio)
	} else {
		c.Ring[c.Total%tailKept] = ratio
	}
	c.Total++
}

// mean is the mean of what is kept, and false while there is too little.
func (c *tailCount) mean() (float64, bool) {
	if len(c.Ring) < tailNeeded {
		return 0, false
	}
	sum := 0.0
	for _, ratio := range c.Ring {
		sum += float64(ratio)
	}
	return sum / float64(len(c.Ring)), true
}

// tailFactor is by how much expected times are longer than the model has them. It
// presumes latencies to be log-normal and leaves out what is far off, but people's have
// a heavier right tail, as attention wanders, and that takes time, too: in sittings of
// typists who were recorded, 2.5 to 5.7 % of the latencies were above twice the median
// (Killourhy and Maxion 2009, computed from their records). One factor serves both
// boards, so that their ratio is not touched.
func (w *work) tailFactor() float64 {
	seen, ok := w.in.Tally.c.Tail.mean()
	if !ok {
		return 1
	}
	for id := range w.in.Strokes {
		if p, l := w.in.Model.Expect(id, w.in.Now), w.in.Model.Level(id, w.in.Now); l.MS > 0 {
			presumed := scheduler.Latency(p.MS, l.Err) / l.MS // the same for every stroke
			return max(1, seen/presumed)
		}
	}
	return 1
}
