package standing

import (
	"cmp"
	"math"
	"slices"
)

const (
	// worthShare is the share of the whole cost that a move has to save.
	worthShare = .01
	movesTold  = 20
	// charsADay is how much is presumed to be typed at work; an assumption.
	charsADay = 3000
	// relearnedTo is the share above its settled time at which a stroke counts as relearned.
	relearnedTo = .10
	// woven is the number of strokes in a drill for each that it is about.
	woven = 2.6
)

// moves looks at every swap of two slots and every move to a free one.
func (w *work) moves() Moves {
	out := Moves{DailyUse: charsADay}
	m, needs := w.fitEffort()
	if m == nil {
		out.Needs = needs
		return out
	}
	out.Known = true
	t := w.exchange(m)
	out.CostMS = t.whole
	for i := range t.slots {
		for j := i + 1; j < len(t.slots); j++ {
			out.Pairs++
			if t.saves(i, j) <= worthShare*t.whole {
				continue
			}
			if mv := t.move(t.slots[i], t.slots[j]); mv.SavesMS.Lo > 0 {
				out.Advice = append(out.Advice, mv)
			}
		}
	}
	slices.SortStableFunc(out.Advice, func(a, b Move) int { return cmp.Compare(b.SavesMS.Value, a.SavesMS.Value) })
	out.Found = len(out.Advice)
	out.Advice = out.Advice[:min(movesTold, len(out.Advice))]
	out.LeaveIt = out.Found == 0
	return out
}

// exchange works out what swaps save.
type exchange struct {
	*arrangement
	w     *work
	m     *effortModel
	now   map[int]float64 // by id: ms per 1,000 characters on the board as it is
	whole float64         // their sum: once settled
}

func (w *work) exchange(m *effortModel) *exchange {
	t := &exchange{arrangement: w.arrange(), w: w, m: m, now: map[int]float64{}}
	for id := range w.in.Strokes { // in one order, so that the sum is one
		if _, ok := t.strokes[id]; ok {
			t.now[id] = t.times(id) * t.ms(id, t.arrangement.now(id))
			t.whole += t.now[id]
		}
	}
	return t
}

// times is how often a symbol comes in 1,000 characters.
func (t *exchange) times(id int) float64 { return 1000 * t.w.in.Strokes[id].Freq }

// ms is what a symbol takes once it is settled; what is drilled on the base
// layer now is taken as it is.
func (t *exchange) ms(id int, p placed) float64 {
	if p.base && p.same {
		return t.w.expect(id).total()
	}
	return t.m.settled(p.effort, p.position)
}

// saves is what changing two slots about saves, in ms per 1,000 characters;
// -Inf where a symbol could not be typed any more.
func (t *exchange) saves(i, j int) float64 {
	a, b := t.slots[i], t.slots[j]
	saved := 0.0
	for _, id := range affected(a, b) {
		p, ok := t.after(id, a, b)
		if !ok {
			return math.Inf(-1)
		}
		saved += t.now[id] - t.times(id)*t.ms(id, p)
	}
	return saved
}

// affected are the symbols with a stroke in one of the slots.
func affected(a, b slot) []int {
	return slices.Compact(slices.Sorted(slices.Values(slices.Concat(a.ids, b.ids))))
}

// move tells a swap whole.
func (t *exchange) move(a, b slot) Move {
	if t.weight(a) < t.weight(b) {
		a, b = b, a // it is named for what is typed more
	}
	c := change{model: t.m}
	for _, id := range affected(a, b) {
		after, _ := t.after(id, a, b)
		for _, side := range []struct {
			p    placed
			sign float64
		}{{t.arrangement.now(id), 1}, {after, -1}} {
			if side.p.base && side.p.same {
				c.ms += side.sign * t.times(id) * t.ms(id, side.p)
			} else {
				c.add(side.sign*t.times(id), side.p.effort, side.p.position)
			}
		}
	}
	mv := Move{Symbol: a.symbol, Layer: a.layer, From: a.position.String(),
		With: b.symbol, ToLayer: b.layer, To: b.position.String(), SavesMS: c.sum()}
	mv.SavesShare = mv.SavesMS.Value / t.whole
	mv.RelearnStrokes, mv.RelearnMinutes = t.relearn(a, b)
	mv.PaysAfterDays = mv.RelearnMinutes * 60000 / (mv.SavesMS.Value * charsADay / 1000)
	return mv
}

// weight is how often what is drilled in a slot comes.
func (t *exchange) weight(s slot) float64 {
	f := 0.0
	for _, id := range s.ids {
		if s.has(t.strokes[id][0]) {
			f += t.times(id)
		}
	}
	return f
}

// relearn is the practice until every stroke that changes is within a tenth of
// its settled time, by the user's own slope over tries; the strokes around them
// in the drills count as well.
func (t *exchange) relearn(a, b slot) (strokes int, minutes float64) {
	slope := min(t.m.coef[2], -.02)
	strokes = min(settledTries, int(math.Ceil((1+settledTries)*math.Pow(1+relearnedTo, 1/slope))))
	for _, id := range affected(a, b) {
		after, _ := t.after(id, a, b)
		if after.same {
			continue
		}
		for k := range strokes {
			minutes += woven * t.ms(id, after) * math.Pow(float64(2+k)/(1+settledTries), slope) / 60000
		}
	}
	return strokes, minutes
}
