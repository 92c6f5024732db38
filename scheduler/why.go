package scheduler

import "time"

// Reason names the term that speaks most for practising a stroke now.
type Reason string

const (
	Unknown  Reason = "new"      // never met
	Away     Reason = "away"     // not met for some days
	Slow     Reason = "slow"     // slower than its neighbours
	Slips    Reason = "slips"    // often wrong
	Common   Reason = "common"   // frequent in the user's work
	Rare     Reason = "rare"     // rare: kept reachable
	Pull     Reason = "pull"     // pressed where it was before the board changed
	Lagging  Reason = "lagging"  // the other board has become slower
	Measured Reason = "measured" // part of a probe
)

// Why is the reason for a choice, with the figures it rests on. Callers word it.
type Why struct {
	Reason   Reason
	Days     float64 // since the stroke was last met; 0 if it never was
	MS       float64 // expected median latency
	ErrShare float64 // expected chance of a slip, 0 to 1
	PerMille float64 // share of the user's strokes
	Tries    int     // so far
	Slips    int     // among the last ones counted
	Class    float64 // expected median latency of its layer, ms
}

// Why returns the reason to practise a stroke at a time.
func (s *Scheduler) Why(id int, at time.Time) Why {
	l, it := s.Level(id, at), s.items[id]
	w := Why{Reason: Common, MS: l.MS, ErrShare: l.Err, PerMille: 1000 * s.strokes[id].Freq, Tries: it.tries, Slips: it.slips}
	if it.tries == 0 {
		w.Reason = Unknown
		return w
	}
	w.Days = max(0, at.Sub(it.last).Hours()/24)
	switch {
	case w.Days >= 2:
		w.Reason = Away
	case it.err > .1:
		w.Reason = Slips
	case w.PerMille < 1:
		w.Reason = Rare
	}
	return w
}
