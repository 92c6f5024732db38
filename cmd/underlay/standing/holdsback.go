package standing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"underlay/drills"
	"underlay/drills/board"
)

// expectation is what a stroke is expected to take in the user's work, in ms.
type expectation struct {
	MS    float64 // mean latency
	Slips float64 // chance of a slip times what one costs
	SD    float64 // of both together
}

func (e expectation) total() float64 { return e.MS + e.Slips }

// expect takes the model's expectation apart: a slip costs 450 ms and .8
// latencies, as the model has it. The chance of a slip is as uncertain as one
// seen in so many tries.
func (w *work) expect(id int) expectation {
	b := w.in.Strokes[id].Board
	p, l := w.in.Model.Expect(id, w.at[b]), w.in.Model.Level(id, w.at[b])
	p.MS *= w.form[b].factor
	ms := (p.MS - 450*l.Err) / (1 + .8*l.Err)
	e := expectation{MS: ms, Slips: p.MS - ms}
	slips := (450 + .8*ms) * math.Sqrt(l.Err*(1-l.Err)/(float64(min(l.Tries, 200))+4))
	e.SD = math.Hypot(p.MS*p.SD, slips)
	return e
}

// reference is what a stroke is held against: the same symbol on the other
// board, or where that has none, the yardstick's pace.
func (w *work) reference(id int) expectation {
	if other := w.in.Strokes[id].Other; w.two() && other >= 0 && other < len(w.in.Strokes) {
		return w.expect(other)
	}
	y := w.yard
	return expectation{MS: y.MS, SD: y.MS * y.SD}
}

// cost is what a stroke costs more than its yardstick.
func (w *work) cost(id int) Cost {
	s, e, r := w.in.Strokes[id], w.expect(id), w.reference(id)
	f := 1000 * s.Freq
	c := Cost{Name: string(s.Symbol), Stroke: s.Keys.String(), PerMille: f,
		SlowMS: f * (e.MS - r.MS), SlipsMS: f * (e.Slips - r.Slips), Tries: w.in.Model.Level(id, w.at[0]).Tries}
	c.MS = around(c.SlowMS+c.SlipsMS, f*math.Hypot(e.SD, r.SD))
	c.Sure = sure(c.MS, c.Tries)
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
	h := HoldsBack{Against: w.against()}
	if n := w.in.Tally.c.Sides[0].Tries; n == 0 {
		h.Needs = "nothing has been typed on " + w.in.Boards[0].Name + " yet"
		return h
	}
	layers, fingers := groups{}, groups{}
	for id, s := range w.in.Strokes {
		if s.Board != 0 || s.Retired || s.Freq <= 0 {
			continue
		}
		c := w.cost(id)
		h.Strokes = append(h.Strokes, c)
		layers.add(layerName(s.Keys), c)
		fingers.add(board.Hand(s.Hand).String()+" "+fingerName(s.Finger), c)
	}
	h.TotalMS = w.excess()
	h.Layers, h.Fingers, h.Kinds = layers.costs(), fingers.costs(), w.kinds()
	byCost(h.Strokes)
	return h
}

// excess is the whole cost: the difference of the paces.
func (w *work) excess() Range {
	p := w.pace(0)
	return around(1000*(p.MS-w.yard.MS), 1000*math.Hypot(p.MS*p.SD, w.yard.MS*w.yard.SD))
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

// groups sums costs by name.
type groups map[string]Cost

func (g groups) add(name string, c Cost) {
	s := g[name]
	s.Name = name
	s.PerMille += c.PerMille
	s.SlowMS += c.SlowMS
	s.SlipsMS += c.SlipsMS
	s.Tries += c.Tries
	s.MS = around(s.MS.Value+c.MS.Value, math.Hypot(s.MS.sd(), c.MS.sd()))
	g[name] = s
}

func (g groups) costs() []Cost {
	var out []Cost
	for _, c := range g {
		c.Sure = sure(c.MS, c.Tries)
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
	g := groups{}
	for i, kind := range drills.SlipKinds() {
		n := int(all[uint8(i)])
		if n == 0 {
			continue
		}
		ms, use := w.kindCost(uint8(i), of, all[uint8(i)]/float64(len(ring)))
		share := wilson(n, len(ring), z80)
		scale := ms / share.Value
		g[string(kind)] = Cost{Name: string(kind), PerMille: use, SlipsMS: ms, Tries: n,
			MS: Range{ms, scale * share.Lo, scale * share.Hi}}
	}
	return g.costs()
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

// Worded says a need of tries in words, or nothing.
func (h InHand) Worded() string {
	if h.NeedTries == 0 {
		return ""
	}
	return fmt.Sprintf("%d more strokes are needed", h.NeedTries)
}
