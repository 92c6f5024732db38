package standing

import (
	"math"

	"underlay/scheduler/journal"
)

const (
	firstStrokes = 150 // of the other board: its first level
	nowStrokes   = 150 // the latest ones, compared with it
	nowNeeded    = 60
	// fadesFrom is the lag below which nothing is said, as a share.
	fadesFrom = .04
	// sittingNoise is the least standard deviation of ln ms between sittings
	// that is presumed; own simulations.
	sittingNoise = .03
)

// sample is one stroke on the other board.
type sample struct {
	ID      int
	Y       float32 // ln ms
	Sitting int32
}

// upkeepCount keeps the first strokes on the other board and, as a ring, the
// latest ones.
type upkeepCount struct {
	First []sample
	Now   []sample
	Total int // put into the ring
}

// add counts a right, unaided stroke in flow.
func (u *upkeepCount) add(id, sitting int, k journal.Key) {
	if !timed(k) || k.Flags&(journal.AfterSlip|journal.BoardSwitch) != 0 {
		return
	}
	s := sample{id, float32(math.Log(k.MS)), int32(sitting)}
	switch {
	case len(u.First) < firstStrokes:
		u.First = append(u.First, s)
		return
	case len(u.Now) < nowStrokes:
		u.Now = append(u.Now, s)
	default:
		u.Now[u.Total%nowStrokes] = s
	}
	u.Total++
}

// upkeep returns how the other board does.
func (w *work) upkeep() *Upkeep {
	if !w.two() {
		return nil
	}
	c := &w.in.Tally.c
	u := &c.Upkeep
	out := &Upkeep{Board: w.in.Boards[1].Name}
	if c.Sides[1].Timed > 0 {
		out.LatencyMS = paceRange(w.pace(1))
	}
	for _, d := range c.Days {
		out.Days += d.Board
	}
	switch {
	case len(u.First) < firstStrokes:
		out.Needs = needed(firstStrokes-len(u.First), "right stroke", "on "+out.Board) + " for its first level"
	case len(u.Now) < nowNeeded:
		out.Needs = needed(nowNeeded-len(u.Now), "right stroke", "on "+out.Board) + " to set against its first level"
	default:
		lag := lagOf(u.First, u.Now)
		if math.IsInf(lag.Hi, 0) {
			out.Needs = "the strokes that were typed first on " + out.Board + " are needed once more"
			break
		}
		out.Known = true
		out.Lag = Range{math.Expm1(lag.Value), math.Expm1(lag.Lo), math.Expm1(lag.Hi)}
		out.Fades = out.Lag.Value > fadesFrom && out.Lag.Lo > 0
	}
	return out
}

// lagOf is how much later samples lie above earlier ones, in ln ms. Each
// stroke is compared with itself alone, so that it does not matter which were
// typed when: least squares with a level of its own for every stroke (the within
// estimator of panel data), and a variance that allows for the strokes of one
// sitting being alike (cluster-robust, with the correction for few clusters).
func lagOf(first, now []sample) Range {
	type group struct{ n, later, y float64 }
	strokes := map[int]*group{}
	each := func(do func(s sample, later float64, g *group)) {
		for later, samples := range [][]sample{first, now} {
			for _, s := range samples {
				if strokes[s.ID] == nil {
					strokes[s.ID] = &group{}
				}
				do(s, float64(later), strokes[s.ID])
			}
		}
	}
	each(func(s sample, later float64, g *group) { g.n, g.later, g.y = g.n+1, g.later+later, g.y+float64(s.Y) })
	xx, xy := 0.0, 0.0
	each(func(s sample, later float64, g *group) {
		x := later - g.later/g.n
		xx += x * x
		xy += x * (float64(s.Y) - g.y/g.n)
	})
	if xx == 0 {
		return Range{0, math.Inf(-1), math.Inf(1)} // no stroke was typed at both times
	}
	lag := xy / xx
	sums, squares := map[int32]float64{}, 0.0
	each(func(s sample, later float64, g *group) {
		x := later - g.later/g.n
		e := float64(s.Y) - g.y/g.n - lag*x
		sums[s.Sitting] += x * e
		squares += e * e
	})
	// With few sittings the robust variance is too small as often as too large:
	// it counts where it is larger than the plain one.
	plain := squares / max(float64(len(first)+len(now)-len(strokes)-1), 1) / xx
	least := sittingNoise * sittingNoise * (1/sittings(first) + 1/sittings(now))
	return around(lag, math.Sqrt(max(robust(sums)/(xx*xx), plain+least)))
}

// robust is the variance of a sum of sums by cluster.
func robust(sums map[int32]float64) (variance float64) {
	for _, s := range sums {
		variance += s * s
	}
	n := float64(len(sums))
	return variance * n / max(n-1, 1)
}

func sittings(samples []sample) float64 {
	met := map[int32]bool{}
	for _, s := range samples {
		met[s.Sitting] = true
	}
	return float64(len(met))
}
