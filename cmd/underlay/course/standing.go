package course

import (
	"cmp"
	"math"
	"slices"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler"
)

// Standing says how well the stroke that is drilled for a symbol is known. A
// symbol that is never asked for is unmet.
func (c *Course) Standing(b int, s board.Symbol, at time.Time) session.Standing {
	id, ok := c.ID(b, s)
	if !ok {
		return session.Standing{}
	}
	return session.Standing{State: c.scheduler.State(id, at), Level: c.scheduler.Level(id, at)}
}

// Past sums up earlier sittings.
func (c *Course) Past(now time.Time) session.Past {
	out := session.Past{Ever: len(c.past.Days) > 0}
	for back := range 7 {
		spent := milliseconds(c.past.Days[now.AddDate(0, 0, -back).Format(time.DateOnly)])
		if spent > 0 {
			out.Days++
		}
		if back == 0 {
			out.Today = spent
		}
		out.Week += spent
	}
	return out
}

// Gains says what changed between the start of a sitting and now.
func (c *Course) Gains(_, now time.Time) session.Gains {
	return session.Gains{Quicker: c.quicker(now), Returns: c.returns(now), States: c.states(now)}
}

// quicker lists what surely got quicker, the greatest gain first.
func (c *Course) quicker(now time.Time) []session.Gain {
	const most = 5
	var out []session.Gain
	for id, before := range c.before {
		after := c.scheduler.Level(id, now)
		if c.strokes.all[id].Retired || before.Tries == 0 || !surely(before, after) {
			continue
		}
		out = append(out, session.Gain{Symbol: c.strokes.all[id].Symbol, Before: before.MS, After: after.MS})
	}
	slices.SortFunc(out, func(a, b session.Gain) int {
		return cmp.Or(cmp.Compare(a.After/a.Before, b.After/b.Before), cmp.Compare(a.Symbol, b.Symbol))
	})
	return out[:min(most, len(out))]
}

// surely tells whether a level fell by more than its uncertainty: nine times
// in ten it is lower, were the two estimates independent.
func surely(before, after scheduler.Level) bool {
	const z = 1.2816 // of the normal distribution, 90 % on one side; Lo and Hi are 80 % ranges
	sd := func(l scheduler.Level) float64 { return math.Log(l.Hi/l.Lo) / (2 * z) }
	gain := math.Log(before.MS / after.MS)
	return gain > z*math.Hypot(sd(before), sd(after)) && gain > .02
}

// returns says when what was met comes back: what is not steady tomorrow, the
// rest when it is expected to fade.
func (c *Course) returns(now time.Time) []session.Return {
	const horizon, most = 14, 5
	days := map[int][]int{}
	for id := range c.before {
		if c.strokes.features[id].Retired || c.strokes.all[id].Board != 0 {
			continue
		}
		day := 1
		for day < horizon && c.scheduler.State(id, now.AddDate(0, 0, day)) == scheduler.Steady {
			day++
		}
		if day < horizon {
			days[day] = append(days[day], id)
		}
	}
	var out []session.Return
	for day := 1; day < horizon && len(out) < 2; day++ {
		ids := days[day]
		if len(ids) == 0 {
			continue
		}
		c.byNeed(ids, now)
		out = append(out, session.Return{Symbols: c.symbols(ids[:min(most, len(ids))]), Days: day})
	}
	return out
}

// byNeed sorts strokes by the time they cost in the user's work, most first.
func (c *Course) byNeed(ids []int, now time.Time) {
	cost := func(id int) float64 { return c.strokes.features[id].Freq * c.scheduler.Level(id, now).MS }
	slices.SortFunc(ids, func(a, b int) int { return cmp.Or(cmp.Compare(cost(b), cost(a)), cmp.Compare(a, b)) })
}

// states counts the strokes of the board being learned by state, the base
// layer aside.
func (c *Course) states(now time.Time) []session.Count {
	n := map[scheduler.State]int{}
	for id, st := range c.strokes.all {
		if f := c.strokes.features[id]; st.Board == 0 && !f.Retired && f.Layer != 0 {
			n[c.scheduler.State(id, now)]++
		}
	}
	var out []session.Count
	for _, s := range []scheduler.State{scheduler.Steady, scheduler.Building, scheduler.Fading, scheduler.Unmet} {
		if n[s] > 0 {
			out = append(out, session.Count{State: s, N: n[s]})
		}
	}
	return out
}
