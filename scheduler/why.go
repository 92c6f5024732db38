package scheduler

import (
	"math"
	"math/bits"
	"time"
)

// Reason names the term that speaks most for practising a stroke now.
type Reason string

const (
	Unknown Reason = "new"     // never met
	Moved   Reason = "moved"   // its symbol has a new place on the board; never met there
	Pull    Reason = "pull"    // pressed where it was before the board changed
	Away    Reason = "away"    // not met for some days
	Slips   Reason = "slips"   // often wrong
	Slow    Reason = "slow"    // slower than its neighbours
	Common  Reason = "common"  // frequent in the user's work
	Rare    Reason = "rare"    // rare, and kept reachable
	Lagging Reason = "lagging" // the other board has become slower
	Check   Reason = "check"   // looked at briefly, to see that it stays
)

// Why is the reason for a choice, with the figures it rests on. Callers word it.
type Why struct {
	Reason   Reason
	Days     float64 // since the stroke was last met; 0 if it never was
	MS       float64 // expected median latency
	ErrShare float64 // expected chance of a slip, 0 to 1
	PerMille float64 // share of the user's strokes
	Tries    int     // so far
	Slips    int     // among the last tries
	Of       int     // how many of the last tries those are, at most 20
	ClassMS  float64 // median latency of the strokes on its layer
}

const recentTries = 20

// Why returns the reason to practise a stroke at a time.
func (s *Scheduler) Why(id int, at time.Time) Why {
	if id < 0 || id >= len(s.Items) {
		return Why{}
	}
	it, e := &s.Items[id], s.estimate(id, seconds(at))
	w := Why{MS: math.Exp(e.ln), ErrShare: e.slip(), PerMille: 1000 * s.strokes[id].Freq, Tries: int(it.Tries), ClassMS: s.classMS(id, at)}
	if it.Tries > 0 {
		w.Days = math.Max(0, (seconds(at)-it.Last)/day)
	}
	w.Of = min(w.Tries, recentTries)
	w.Slips = bits.OnesCount32(it.Recent & (1<<w.Of - 1))
	w.Reason = s.reason(id, it, &w)
	return w
}

// reason picks what a user would name first.
func (s *Scheduler) reason(id int, it *item, w *Why) Reason {
	const (
		awayDays  = 2.5
		slower    = 1.2
		slipOften = .08
		pulled    = 1.2
		rareShare = 1. // per mille
	)
	switch {
	case s.strokes[id].Board == 1 && s.Upkeep.Lagging:
		return Lagging
	case s.strokes[id].Board == 1:
		return Check
	case it.Tries == 0 && s.strokes[id].Was >= 0:
		return Moved
	case it.Tries == 0:
		return Unknown
	case it.Pulls > pulled:
		return Pull
	case w.Days >= awayDays:
		return Away
	case w.ErrShare > slipOften && w.Slips >= 2:
		return Slips
	case w.MS > slower*w.ClassMS:
		return Slow
	case w.PerMille < rareShare:
		return Rare
	}
	return Common
}

// classMS is the geometric mean of the expected latencies of a stroke's layer.
func (s *Scheduler) classMS(id int, at time.Time) float64 {
	sum, n := 0.0, 0.0
	for k := range s.strokes {
		if s.places[k].layer == s.places[id].layer && !s.strokes[k].Retired {
			sum += s.estimate(k, seconds(at)).ln
			n++
		}
	}
	return math.Exp(sum / math.Max(n, 1))
}
