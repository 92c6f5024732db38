package standing

import (
	"cmp"
	"hash/fnv"
	"math"
	"slices"
	"time"

	"underlay/drills"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

const (
	probesKept  = 40                  // of a board, the latest
	probesTold  = 6                   // pairs, the latest: older ones are from when less was known
	probeWithin = 21 * 24 * time.Hour // between the two lines of a pair
	// probeNoise is the standard deviation of ln ms of a minute of probe,
	// presumed until enough pairs tell their own; own simulations.
	probeNoise = .06
)

// probeCount is one line typed unaided, to its end and without looking away.
type probeCount struct {
	At   time.Time
	Text uint64 // tells lines apart
	N    int    // strokes
	MS   float64
}

// probe keeps d if it is a probe.
func (c *counts) probe(b int, d journal.Drill) {
	if d.Kind != string(drills.Probe) && d.Block != string(scheduler.Probe) {
		return
	}
	p := probeCount{At: d.At, Text: textOf(d.Keys)}
	for _, k := range d.Keys {
		if k.Flags&(journal.Paused|journal.Helped) != 0 {
			return
		}
		p.MS += worked(k)
		if !k.Flags.Has(journal.Repair) {
			p.N++
		}
	}
	if p.N == 0 || p.MS <= 0 {
		return
	}
	c.Probes[b] = append(c.Probes[b], p)
	if n := len(c.Probes[b]); n > probesKept {
		c.Probes[b] = slices.Delete(c.Probes[b], 0, n-probesKept)
	}
}

// textOf tells lines apart by the symbols in them, whatever their order: of
// the user's own lines the journal does not keep it.
func textOf(keys []journal.Key) uint64 {
	var symbols []string
	for _, k := range keys {
		if !k.Flags.Has(journal.Repair) {
			symbols = append(symbols, k.Symbol)
		}
	}
	slices.Sort(symbols)
	h := fnv.New64a()
	for _, s := range symbols {
		h.Write([]byte(s))
		h.Write([]byte{0})
	}
	return h.Sum64()
}

// pair is a line typed on both boards.
type pair struct{ learned, other probeCount }

// pairs joins each probe on the board being learned with the one nearest in
// time of the same line on the other board, and returns the latest ones.
func (c *counts) pairs() []pair {
	var out []pair
	used := map[int]bool{}
	for _, p := range slices.Backward(c.Probes[0]) {
		best, bestGap := -1, probeWithin
		for i, q := range c.Probes[1] {
			if gap := q.At.Sub(p.At).Abs(); q.Text == p.Text && !used[i] && gap <= bestGap {
				best, bestGap = i, gap
			}
		}
		if best >= 0 && len(out) < probesTold {
			used[best] = true
			out = append(out, pair{p, c.Probes[1][best]})
		}
	}
	return out
}

// probe returns what the probes tell, or nil when no line was typed on both boards.
func (c *counts) probes() *Probe {
	ps := c.pairs()
	if len(ps) == 0 {
		return nil
	}
	var ratio, learned, other []float64
	for _, p := range ps {
		l, o := math.Log(p.learned.MS/float64(p.learned.N)), math.Log(p.other.MS/float64(p.other.N))
		ratio, learned, other = append(ratio, o-l), append(learned, l), append(other, o)
	}
	return &Probe{
		Lines:     len(ps),
		LatencyMS: [2]Range{expRange(meanRange(learned)), expRange(meanRange(other))},
		Share:     expRange(meanRange(ratio)),
	}
}

// meanRange is the mean of y with its 80 % range. The spread of few values is
// joined with what is presumed of it, as if that had been seen in four values.
func meanRange(y []float64) Range {
	mean := 0.0
	for _, v := range y {
		mean += v / float64(len(y))
	}
	ss := 4 * probeNoise * probeNoise
	for _, v := range y {
		ss += (v - mean) * (v - mean)
	}
	sd := math.Sqrt(ss / float64(len(y)+3))
	half := studentT80(float64(len(y)+3)) * sd / math.Sqrt(float64(len(y)))
	return Range{mean, mean - half, mean + half}
}

func expRange(r Range) Range {
	r = Range{math.Exp(r.Value), math.Exp(r.Lo), math.Exp(r.Hi)}
	if cmp.Compare(r.Lo, r.Hi) > 0 {
		r.Lo, r.Hi = r.Hi, r.Lo
	}
	return r
}
