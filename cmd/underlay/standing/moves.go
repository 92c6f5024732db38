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
	t, needs := w.exchange()
	if t == nil {
		out.Needs = needs
		return out
	}
	out.Known = true
	out.CostMS = t.whole
	for i, a := range t.slots {
		for _, b := range t.slots[i+1:] {
			out.Pairs++
			ids := affected(a, b)
			if t.most(ids, a, b) <= worthShare*t.whole || t.saves(ids, a, b) <= worthShare*t.whole {
				continue
			}
			if mv := t.move(a, b); mv.SavesMS.Lo > 0 {
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

// exchange works out what swaps save. What a symbol costs, in ms per 1,000
// characters, is
//
//	times alone + sum over what comes before it (times of the pair alone cost)
//
// where alone is the time of the stroke by itself, and cost what it adds, as a
// share, that the stroke before was on another layer or of the same finger. So a
// symbol that moves changes what it costs and what comes after it does.
type exchange struct {
	*arrangement
	w          *work
	m          *effortModel
	follow     follow
	neighbours []neighbours // by id, as the next three
	own        []float64    // alone as it is now, in ms
	cost       []float64    // what it costs on the board as it is
	out        []float64    // part of what others cost, since it comes before them
	whole      float64      // sum of what all cost, once settled
}

// exchange fits the user's strokes, or says what is missing.
func (w *work) exchange() (*exchange, string) {
	n := len(w.in.Strokes)
	t := &exchange{arrangement: w.arrange(), w: w, neighbours: neighboursOf(w.in.Follows, n),
		own: make([]float64, n), cost: make([]float64, n), out: make([]float64, n)}
	t.follow.otherLayer, t.follow.sameFinger = w.in.Model.Before(0)
	for id := range t.strokes {
		t.own[id] = w.expect(id).total()
		if n := t.times(id); n > 0 {
			t.own[id] *= n / (n + t.around(id, t.now(id), t.now))
		}
	}
	needs := ""
	if t.m, needs = w.fitEffort(t.own); t.m == nil {
		return nil, needs
	}
	for id := range w.in.Strokes { // in one order, so that the sum is one
		if _, ok := t.strokes[id]; ok {
			p := t.now(id)
			t.cost[id] = t.costs(id, p, t.now)
			t.whole += t.cost[id]
			for _, n := range t.neighbours[id].before {
				t.out[n.id] += t.alone(id, p) * n.times * t.follow.cost(t.now(n.id), p)
			}
		}
	}
	return t, ""
}

// times is how often a symbol comes in 1,000 characters.
func (t *exchange) times(id int) float64 { return 1000 * t.w.in.Strokes[id].Freq }

// alone is what a symbol takes by itself once it is settled; what is drilled on the base
// layer now is taken as it is.
func (t *exchange) alone(id int, p placed) float64 {
	if p.base && p.same {
		return t.own[id]
	}
	return t.m.settled(p.effort, p.position)
}

// around is how many times its own time a symbol costs for what comes before
// it, in 1,000 characters.
func (t *exchange) around(id int, p placed, at func(id int) placed) (times float64) {
	for _, n := range t.neighbours[id].before {
		times += n.times * t.follow.cost(at(n.id), p)
	}
	return times
}

// costs is what a symbol costs in 1,000 characters, typed at p while the others are where at says.
func (t *exchange) costs(id int, p placed, at func(id int) placed) float64 {
	return t.alone(id, p) * (t.times(id) + t.around(id, p, at))
}

// changed is how the symbols of two slots would be typed with these changed
// about; it is false where one could not be typed any more.
func (t *exchange) changed(ids []int, a, b slot) (map[int]placed, bool) {
	after := make(map[int]placed, len(ids))
	for _, id := range ids {
		p, ok := t.after(id, a, b)
		if !ok {
			return nil, false
		}
		after[id] = p
	}
	return after, true
}

// most is what changing two slots about can save at most, when it costs
// nothing any more what comes before what; -Inf where a symbol could not be typed any more.
func (t *exchange) most(ids []int, a, b slot) (ms float64) {
	for _, id := range ids {
		p, ok := t.after(id, a, b)
		if !ok {
			return math.Inf(-1)
		}
		ms += t.cost[id] + t.out[id] - t.times(id)*t.alone(id, p)
	}
	return ms
}

// saves is what changing two slots about saves, in ms per 1,000 characters;
// -Inf where a symbol could not be typed any more.
func (t *exchange) saves(ids []int, a, b slot) (ms float64) {
	after, ok := t.changed(ids, a, b)
	if !ok {
		return math.Inf(-1)
	}
	at := t.with(after)
	for _, id := range ids {
		ms += t.cost[id] - t.costs(id, after[id], at)
	}
	return ms + t.savedBehind(ids, after)
}

// with is where symbols are when some have moved.
func (t *exchange) with(after map[int]placed) func(id int) placed {
	return func(id int) placed {
		if p, ok := after[id]; ok {
			return p
		}
		return t.now(id)
	}
}

// savedBehind is what symbols cost less that come after those that move, and stay themselves.
func (t *exchange) savedBehind(ids []int, after map[int]placed) (ms float64) {
	for _, id := range ids {
		was, is := t.now(id), after[id]
		for _, n := range t.neighbours[id].after {
			if _, moves := after[n.id]; !moves {
				p := t.now(n.id)
				ms += n.times * t.alone(n.id, p) * (t.follow.cost(was, p) - t.follow.cost(is, p))
			}
		}
	}
	return ms
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
	ids := affected(a, b)
	after, _ := t.changed(ids, a, b)
	c := change{model: t.m, ms: t.savedBehind(ids, after)}
	add := func(id int, p placed, at func(id int) placed, sign float64) {
		if p.base && p.same {
			c.ms += sign * t.costs(id, p, at)
		} else {
			c.add(sign*(t.times(id)+t.around(id, p, at)), p.effort, p.position)
		}
	}
	for _, id := range ids {
		add(id, t.now(id), t.now, 1)
		add(id, after[id], t.with(after), -1)
	}
	mv := Move{Symbol: a.symbol, Layer: a.layer, From: a.position.String(),
		With: b.symbol, ToLayer: b.layer, To: b.position.String(), SavesMS: c.sum()}
	mv.SavesShare = mv.SavesMS.Value / t.whole
	mv.RelearnStrokes, mv.RelearnMinutes = t.relearn(ids, after)
	mv.PaysAfterDays = mv.RelearnMinutes * 60000 / (mv.SavesMS.Value * charsADay / 1000)
	return mv
}

// weight is how often what is drilled in a slot comes.
func (t *exchange) weight(s slot) float64 {
	f := 0.0
	for _, id := range s.ids {
		if s.has(t.strokes[id][0].Stroke) {
			f += t.times(id)
		}
	}
	return f
}

// relearn is the practice until every stroke that changes is within a tenth of
// its settled time, by the user's own slope over tries; the strokes around them
// in the drills count as well.
func (t *exchange) relearn(ids []int, after map[int]placed) (strokes int, minutes float64) {
	slope := min(t.m.coef[2], -.02)
	strokes = min(settledTries, int(math.Ceil((1+settledTries)*math.Pow(1+relearnedTo, 1/slope))))
	for _, id := range ids {
		if after[id].same {
			continue
		}
		for k := range strokes {
			minutes += woven * t.alone(id, after[id]) * math.Pow(float64(2+k)/(1+settledTries), slope) / 60000
		}
	}
	return strokes, minutes
}
