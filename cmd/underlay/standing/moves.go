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
	out := Moves{DailyUse: charsADay, LeaveIt: true}
	m, needs := w.fitEffort()
	if m == nil {
		out.Needs, out.LeaveIt = needs, false
		return out
	}
	out.Known = true
	t := w.exchange(m)
	out.CostMS = t.whole
	for i, a := range t.slots {
		for j := i + 1; j < len(t.slots); j++ {
			b := t.slots[j]
			if len(a.members)+len(b.members) == 0 {
				continue
			}
			out.Pairs++
			if saved := t.saves(i, j); saved > worthShare*t.whole {
				if mv := t.move(i, j); mv.SavesMS.Lo > 0 {
					out.Advice = append(out.Advice, mv)
				}
			}
		}
	}
	slices.SortStableFunc(out.Advice, func(a, b Move) int { return cmp.Compare(b.SavesMS.Value, a.SavesMS.Value) })
	out.Found = len(out.Advice)
	out.Advice = out.Advice[:min(movesTold, len(out.Advice))]
	out.LeaveIt = out.Found == 0
	return out
}

// exchange holds what every stroke on a layer would take at every slot.
type exchange struct {
	w     *work
	m     *effortModel
	slots []slot
	ms    [][]float64 // by slot, of the members of a slot at another: sum of per mille times ms
	whole float64     // ms per 1,000 characters of the board as it is, once settled
}

func (w *work) exchange(m *effortModel) *exchange {
	t := &exchange{w: w, m: m, slots: w.slots()}
	t.ms = make([][]float64, len(t.slots))
	for i, from := range t.slots {
		t.ms[i] = make([]float64, len(t.slots))
		for j, to := range t.slots {
			for _, id := range from.members {
				t.ms[i][j] += t.at(id, to)
			}
		}
	}
	t.whole = t.cost()
	return t
}

// at is what stroke id costs per 1,000 characters with its last key at s.
func (t *exchange) at(id int, s slot) float64 {
	effort := t.w.effortAt(id, s)
	if math.IsInf(effort, 1) {
		return effort
	}
	return 1000 * t.w.in.Strokes[id].Freq * t.m.settled(effort, s.position)
}

// cost is the whole board: layers as the model has them when settled, the
// base layer as it is.
func (t *exchange) cost() float64 {
	sum := 0.0
	for id, st := range t.w.in.Strokes {
		switch {
		case st.Board != 0 || st.Retired:
		case st.Keys.Layer == t.w.in.Boards[0].Layers()[0]:
			sum += 1000 * st.Freq * t.w.expect(id).total()
		default:
			sum += 1000 * st.Freq * t.m.settled(st.Keys.Effort, st.Keys.Final().Position)
		}
	}
	return sum
}

// saves is what swapping two slots saves; -Inf where a symbol cannot go there.
func (t *exchange) saves(i, j int) float64 {
	return t.ms[i][i] + t.ms[j][j] - t.ms[i][j] - t.ms[j][i]
}

// move tells a swap whole.
func (t *exchange) move(i, j int) Move {
	if t.slots[i].symbol == "" || t.slots[j].symbol != "" && t.weight(i) < t.weight(j) {
		i, j = j, i
	}
	a, b := t.slots[i], t.slots[j]
	c := change{model: t.m}
	for _, pass := range [][2]slot{{a, b}, {b, a}} {
		for _, id := range pass[0].members {
			f := 1000 * t.w.in.Strokes[id].Freq
			c.add(f, t.w.effortAt(id, pass[0]), pass[0].position)
			c.add(-f, t.w.effortAt(id, pass[1]), pass[1].position)
		}
	}
	mv := Move{Symbol: a.symbol, Layer: a.layer, From: a.position.String(),
		With: b.symbol, ToLayer: b.layer, To: b.position.String(), SavesMS: c.sum()}
	mv.SavesShare = mv.SavesMS.Value / t.whole
	mv.RelearnStrokes, mv.RelearnMinutes = t.relearn(a, b)
	mv.PaysAfterDays = mv.RelearnMinutes * 60000 / (mv.SavesMS.Value * charsADay / 1000)
	return mv
}

func (t *exchange) weight(i int) float64 {
	f := 0.0
	for _, id := range t.slots[i].members {
		f += t.w.in.Strokes[id].Freq
	}
	return f
}

// relearn is the practice until every stroke that moves is within a tenth of
// its settled time, by the user's own slope over tries; the strokes around them
// in the drills count as well.
func (t *exchange) relearn(a, b slot) (strokes int, minutes float64) {
	slope := min(t.m.coef[2], -.02)
	strokes = min(settledTries, int(math.Ceil((1+settledTries)*math.Pow(1+relearnedTo, 1/slope))))
	for _, pass := range [][2]slot{{a, b}, {b, a}} {
		for _, id := range pass[0].members {
			settled := t.m.settled(t.w.effortAt(id, pass[1]), pass[1].position)
			for k := range strokes {
				minutes += woven * settled * math.Pow(float64(2+k)/(1+settledTries), slope) / 60000
			}
		}
	}
	return strokes, minutes
}
