package standing

import (
	"fmt"
	"math"
	"time"

	"underlay/scheduler/journal"
)

const (
	firstStrokes = 150 // of the other board: its first level
	nowStrokes   = 150 // the latest ones, compared with it
	nowNeeded    = 60
	// fadesFrom is the lag below which nothing is said, as a share.
	fadesFrom = .04
)

// residual is a stroke's ln ms, in the end over what was expected of it at
// first, and the sitting that it belongs to.
type residual struct {
	Y       float32
	Sitting int32
}

// upkeepCount compares the other board's strokes with the first ones there.
// Each stroke is held against its own level as it was when the first ones were
// over, so that it does not matter which of them were typed.
type upkeepCount struct {
	First []residual
	IDs   []int           // of First
	Base  map[int]float32 // ln ms by stroke, as it was then; nil before
	Now   []residual      // ring
	Total int             // put into the ring
}

// add counts a right, unaided stroke that was warmed up and in flow.
func (u *upkeepCount) add(id, sitting int, k journal.Key) {
	if !timed(k) || k.Flags&(journal.AfterSlip|journal.BoardSwitch) != 0 {
		return
	}
	r := residual{float32(math.Log(k.MS)), int32(sitting)}
	if u.Base == nil {
		u.First, u.IDs = append(u.First, r), append(u.IDs, id)
		return
	}
	base, ok := u.Base[id]
	if !ok {
		return
	}
	r.Y -= base
	if len(u.Now) < nowStrokes {
		u.Now = append(u.Now, r)
	} else {
		u.Now[u.Total%nowStrokes] = r
	}
	u.Total++
}

// begin fixes the first level when the first strokes are over.
func (u *upkeepCount) begin(m Model, at time.Time) {
	if u.Base != nil || len(u.IDs) < firstStrokes || m == nil {
		return
	}
	u.Base = map[int]float32{}
	for i, id := range u.IDs {
		if _, ok := u.Base[id]; !ok {
			u.Base[id] = float32(math.Log(m.Level(id, at).MS))
		}
		u.First[i].Y -= u.Base[id]
	}
	u.IDs = nil
}

// upkeep returns how the other board does.
func (c *counts) upkeep(in Input) *Upkeep {
	if len(in.Boards) < 2 {
		return nil
	}
	u := &c.Upkeep
	out := &Upkeep{Board: in.Boards[1].Name, LatencyMS: paceRange(in.Model.Pace(1, soon(in.Now, c.Sides[1].Last)))}
	for _, d := range c.Days {
		out.Days += d.Board
	}
	switch {
	case u.Base == nil:
		out.Needs = fmt.Sprintf("%d more right strokes on %s for its first level", max(1, firstStrokes-len(u.IDs)), out.Board)
		return out
	case len(u.Now) < nowNeeded:
		out.Needs = fmt.Sprintf("%d more right strokes on %s to compare with its first level", nowNeeded-len(u.Now), out.Board)
		return out
	}
	first, v := clustered(u.First)
	now, w := clustered(u.Now)
	half := z80 * math.Sqrt(v+w)
	lag := now - first
	out.Known = true
	out.Lag = Range{math.Expm1(lag), math.Expm1(lag - half), math.Expm1(lag + half)}
	out.Fades = out.Lag.Value > fadesFrom && out.Lag.Lo > 0
	return out
}

// clustered is the mean and its variance, which allows for the strokes of one
// sitting being alike (cluster-robust, with the correction for few clusters,
// and at least what one sitting is known to differ from another).
func clustered(rs []residual) (mean, variance float64) {
	n := float64(len(rs))
	for _, r := range rs {
		mean += float64(r.Y) / n
	}
	sums := map[int32]float64{}
	for _, r := range rs {
		sums[r.Sitting] += float64(r.Y) - mean
	}
	for _, s := range sums {
		variance += s * s / (n * n)
	}
	g := float64(len(sums))
	if g > 1 {
		variance *= g / (g - 1)
	}
	return mean, max(variance, sittingNoise*sittingNoise/g)
}

// sittingNoise is the least standard deviation of ln ms between sittings that
// is presumed; own simulations.
const sittingNoise = .03
