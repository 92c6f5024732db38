package standing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// expectation is what a stroke is expected to take in the user's work, in ms.
type expectation struct {
	MS    float64 // mean latency
	Slips float64 // chance of a slip times what one costs
	SD    float64 // of both together
}

func (e expectation) total() float64 { return e.MS + e.Slips }

// expect takes the model's expectation apart. The chance of a slip is as
// uncertain as one seen in so many tries.
func (w *work) expect(id int) expectation {
	b := w.in.Strokes[id].Board
	p, l := w.in.Model.Expect(id, w.at[b]), w.in.Model.Level(id, w.at[b])
	p.MS *= w.form[b].factor
	ms := scheduler.Latency(p.MS, l.Err)
	e := expectation{MS: ms, Slips: p.MS - ms}
	slips := scheduler.Repair(ms) * math.Sqrt(l.Err*(1-l.Err)/(float64(min(l.Tries, 200))+4))
	e.SD = math.Hypot(p.MS*p.SD, slips)
	return e
}

// quickShare is the share of what is typed that is called quick.
const quickShare = .25

// quickStroke is what one of the user's quick strokes takes: a quarter of their
// mix, typed on one board, takes no longer.
type quickStroke struct {
	board  int
	ms, sd float64
}

// quick looks for it on the board where these are quicker, so that what both
// hands still have to learn counts from the first day on. A board that was hardly
// typed on does not count.
func (w *work) quick() quickStroke {
	best := w.quickOn(0)
	if w.two() && w.in.Tally.c.Sides[1].Timed >= leastTries {
		if other := w.quickOn(1); other.ms < best.ms {
			best = other
		}
	}
	return best
}

func (w *work) quickOn(b int) quickStroke {
	type used struct{ ms, share float64 }
	var all []used
	for id, s := range w.in.Strokes {
		if s.Board == b && !s.Retired && s.Freq > 0 {
			all = append(all, used{w.expect(id).total(), s.Freq})
		}
	}
	slices.SortFunc(all, func(x, y used) int { return cmp.Compare(x.ms, y.ms) })
	var ms, shares []float64
	for _, u := range all {
		ms, shares = append(ms, u.ms), append(shares, u.share)
	}
	if len(ms) == 0 {
		return quickStroke{board: b}
	}
	q := stat.Quantile(quickShare, stat.Empirical, ms, shares)
	return quickStroke{board: b, ms: q, sd: q * w.pace(b).SD}
}

// costOf tells of every stroke of the board being learned what it costs.
func (w *work) costOf() map[int]Cost {
	all := map[int]Cost{}
	for id, s := range w.in.Strokes {
		if s.Board == 0 && !s.Retired {
			all[id] = w.cost(id)
		}
	}
	return all
}

// cost is what a stroke costs more than a quick one.
func (w *work) cost(id int) Cost {
	s, e := w.in.Strokes[id], w.expect(id)
	f := 1000 * s.Freq
	c := Cost{Name: string(s.Symbol), Stroke: s.Keys.String(), PerMille: f, ExpectedMS: e.total(),
		SlowMS: f * (e.MS - w.fast.ms), SlipsMS: f * e.Slips, Tries: w.in.Model.Level(id, w.at[0]).Tries, Timed: w.timed(id)}
	if o := s.Other; w.two() && o >= 0 && o < len(w.in.Strokes) && w.timed(o) >= triesForMS {
		c.OtherMS = w.expect(o).total()
	}
	c.MS = around(c.SlowMS+c.SlipsMS, f*math.Hypot(e.SD, w.fast.sd))
	c.Sure = sure(c.MS, c.Timed)
	return c
}

// sure says how sure a cost is: whether its range lies above nothing, and
// whether it is narrow.
func sure(r Range, tries int) Sure {
	switch {
	case tries < triesForMS:
		return TooFew
	case r.Lo <= 0 && r.Hi >= 0:
		return IsUnsure
	case r.Hi-r.Lo <= math.Abs(r.Value):
		return IsSure
	}
	return IsLikely
}

// holdsBack ranks what costs time on the board being learned.
func (w *work) holdsBack() HoldsBack {
	h := HoldsBack{Against: w.in.Boards[w.fast.board].Name, QuickMS: w.fast.ms}
	h.Kinds = w.kinds()
	if h.Needs = w.missingOn(0); h.Needs != "" {
		return h
	}
	for id, s := range w.in.Strokes {
		if s.Board == 0 && !s.Retired && s.Freq > 0 {
			h.Strokes = append(h.Strokes, w.costs[id])
		}
	}
	byCost(h.Strokes)
	all := func(Stroke) bool { return true }
	h.TotalMS = w.excess(1000, all)
	h.Layers = w.grouped(func(s Stroke) string { return layerName(s.Keys) })
	h.Fingers = w.grouped(func(s Stroke) string { return board.Hand(s.Hand).String() + " " + fingerName(s.Finger) })
	return h
}

// excess is what a part of the work costs that makes up so much of it per mille. Its
// range allows for what the strokes have in common.
func (w *work) excess(perMille float64, of func(Stroke) bool) Range {
	p := w.part(of)
	return around(perMille*(p.MS-w.fast.ms), perMille*math.Hypot(p.MS*p.SD, w.fast.sd))
}

func layerName(s board.Stroke) string {
	shifted := []string{"", " with Shift", " with AltGraph", " with Shift and AltGraph"}
	return s.Layer + shifted[s.Level&3]
}

func fingerName(f int) string {
	if f == int(board.Thumb) {
		return "thumb"
	}
	return board.Finger(f).String() + " finger"
}

// grouped sums what strokes cost by a name.
func (w *work) grouped(name func(Stroke) string) []Cost {
	sums := map[string]Cost{}
	for id, s := range w.in.Strokes {
		if s.Board != 0 || s.Retired || s.Freq <= 0 {
			continue
		}
		c, g := w.costs[id], sums[name(s)]
		g.PerMille += c.PerMille
		g.SlowMS += c.SlowMS
		g.SlipsMS += c.SlipsMS
		g.Tries += c.Tries
		g.Timed += c.Timed
		sums[name(s)] = g
	}
	var out []Cost
	for n, c := range sums {
		c.Name, c.MS = n, w.excess(c.PerMille, func(s Stroke) bool { return name(s) == n })
		c.ExpectedMS = w.fast.ms + c.MS.Value/c.PerMille
		c.Sure = sure(c.MS, c.Timed)
		out = append(out, c)
	}
	byCost(out)
	return out
}

func byCost(all []Cost) {
	slices.SortFunc(all, func(a, b Cost) int {
		return cmp.Or(cmp.Compare(b.MS.Value, a.MS.Value), cmp.Compare(a.Name, b.Name))
	})
}

// kinds shares out what slips cost in the user's work among their kinds: for
// each stroke as its own latest slips were, drawn towards all of them while they
// are few.
func (w *work) kinds() []Cost {
	ring := w.in.Tally.c.Slips.Ring
	if len(ring) < slipsNeeded {
		return nil
	}
	of := map[int]map[uint8]float64{}
	all := map[uint8]float64{}
	for _, s := range ring {
		if of[s.ID] == nil {
			of[s.ID] = map[uint8]float64{}
		}
		of[s.ID][s.Kind]++
		all[s.Kind]++
	}
	var out []Cost
	for i, kind := range drills.SlipKinds() {
		n := int(all[uint8(i)])
		if n == 0 {
			continue
		}
		ms, use := w.kindCost(uint8(i), of, all[uint8(i)]/float64(len(ring)))
		share := wilson(n, len(ring), z80)
		scale := ms / share.Value
		c := Cost{Name: string(kind), PerMille: use, SlipsMS: ms, Tries: n, MS: Range{ms, scale * share.Lo, scale * share.Hi}}
		c.Sure = sure(c.MS, n)
		out = append(out, c)
	}
	byCost(out)
	return out
}

// kindCost is what slips of a kind cost per 1,000 characters, and how many of
// these characters are slips of that kind. presumed is the kind's share of all
// slips, which counts like two slips of every stroke.
func (w *work) kindCost(kind uint8, of map[int]map[uint8]float64, presumed float64) (ms, perMille float64) {
	const weight = 2
	for id, s := range w.in.Strokes {
		if s.Board != 0 || s.Retired {
			continue
		}
		total := 0.0
		for _, n := range of[id] {
			total += n
		}
		share := (of[id][kind] + weight*presumed) / (total + weight)
		ms += 1000 * s.Freq * w.expect(id).Slips * share
		perMille += 1000 * s.Freq * w.in.Model.Level(id, w.at[0]).Err * share
	}
	return ms, perMille
}

// needed says how many more of something, on some board, are needed.
func needed(n int, one, on string) string { return more(n, one, on, "is", "are") + " needed" }

// more counts what is missing, with its verb.
func more(n int, one, on, is, are string) string {
	if n != 1 {
		one, is = one+"s", are
	}
	if on != "" {
		one += " " + on
	}
	return fmt.Sprintf("%d more %s %s", n, one, is)
}
