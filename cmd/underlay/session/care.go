package session

import (
	"slices"
	"time"

	"underlay/drills"
	"underlay/drills/board"
)

// enough is the practice in a day after which a stop is suggested.
const enough = 20 * time.Minute

// care watches for signs that it is time to stop.
type care struct {
	suggested time.Time // when a stop was suggested; zero: it was not
	ratios    []float64 // of right strokes: latency to what was expected
	wrong     []bool    // of all strokes
}

// newCare takes into account what was practised before the program started:
// who had practised enough by then was told so when it was enough.
func newCare(p Past, now time.Time) care {
	if p.Today >= enough {
		return care{suggested: now}
	}
	return care{}
}

// suggestedOn tells whether a stop was suggested on the day of a time.
func (c *care) suggestedOn(at time.Time) bool {
	y, m, d := at.Date()
	sy, sm, sd := c.suggested.Date()
	return y == sy && m == sm && d == sd
}

// add takes the tries of a drill; known has the standing of each ask.
func (c *care) add(tries []drills.Try, known []Standing) {
	for _, t := range tries {
		if t.Index < 0 || t.Index >= len(known) || t.Repair {
			continue
		}
		c.wrong = append(c.wrong, t.Wrong)
		expected := known[t.Index].Level.MS
		if t.Wrong || t.Paused || t.Helped || t.MS <= 0 || expected <= 0 {
			continue
		}
		c.ratios = append(c.ratios, t.MS/expected)
	}
}

// Tiring is looked for once this many strokes are there, by comparing the
// last ones with those after the warm-up.
const (
	tiringFrom   = 200
	tiringWarmUp = 30
	tiringEarly  = 200
	tiringRecent = 80
)

// tiring tells whether the latency has risen and errors with it. The bounds, a
// seventh more time and half as many errors again (at least three in a hundred
// more), are ours.
func (c *care) tiring() bool {
	if len(c.wrong) < tiringFrom || len(c.ratios) < tiringFrom/2 {
		return false
	}
	early, late := parts(c.ratios)
	if median(late) < 1.15*median(early) {
		return false
	}
	e, l := parts(c.wrong)
	return share(l) > max(1.5*share(e), share(e)+.03)
}

func parts[T any](all []T) (early, late []T) {
	recent := min(tiringRecent, len(all)/3)
	warm := min(tiringWarmUp, len(all)/4)
	return all[warm:min(warm+tiringEarly, len(all)-recent)], all[len(all)-recent:]
}

func median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	s := slices.Clone(x)
	slices.Sort(s)
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}

func share(x []bool) float64 {
	n := 0
	for _, b := range x {
		if b {
			n++
		}
	}
	return float64(n) / float64(max(1, len(x)))
}

// careFor suggests a stop, once in a day, and tells whether it did.
func (m *Model) careFor() bool {
	if m.care.suggestedOn(m.now) {
		return false
	}
	why := ""
	switch {
	case m.planner.Past(m.now).Today >= enough:
		why = "That is 20 minutes today. Short sessions on more days teach more than long ones."
	case m.care.tiring():
		why = "The strokes are getting slower and slips more frequent: the hands may be tired."
	default:
		return false
	}
	m.care.suggested = m.now
	m.home(&suggesting{why: why})
	m.interrupt()
	return true
}

// suggesting asks whether to stop.
type suggesting struct{ why string }

func (s *suggesting) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter, "e", board.Escape:
		m.endSitting("")
	case "c":
		m.advance()
	default:
		m.wander(k.Symbol)
	}
}

func (s *suggesting) show(m *Model, v *View) {
	v.Title = "a good place to stop"
	v.Aside = leftWords(m.sitting.left())
	v.Page = &PageView{Lines: append([]string{s.why, ""}, cautions()...)}
	v.Keys = append(v.Keys, Hint{"Enter", "stop here"}, Hint{"c", "carry on"}, Hint{"q", "leave"})
}

const enoughWords = "That was enough for a day. Stop when anything hurts."

// careWords is what Rest says of the hands.
func (m *Model) careWords(p Past) []string {
	var out []string
	if step, ok := m.steps.width(); ok {
		out = append(out, stepWords(step))
	}
	if p.Today >= enough {
		return append(out, enoughWords)
	}
	return append(out, "Hands feel well? Stop when they don't.")
}

// cautions are the usual ones; README names their sources.
func cautions() []string {
	return []string{
		"Keep sessions short; rest 5 to 10 minutes in every hour at the keyboard.",
		"Stop when it hurts, tingles or goes numb; if that stays, see a clinician.",
		"The rules of your workplace go before anything said here.",
	}
}
