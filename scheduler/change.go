package scheduler

import "math"

// A board changes: strokes that stay are the same strokes, with their skill.
// What is gone is retired, not forgotten. A symbol that moved is a new stroke
// that knows which retired one it replaces (Stroke.Was) and starts from what
// carries over. Since all of it follows from the strokes and the tries, putting
// the board file back undoes a change.

// heritage is what a stroke that was never tried takes over from the one that
// it replaces.
type heritage struct {
	ln, logit float64 // added to its own terms
	credit    float64 // tries that count as if they were its own
}

// carryOver is the share of a symbol's own skill that goes to its new place.
func carryOver(from, to *Stroke) float64 {
	finger := from.Hand == to.Hand && from.Finger == to.Finger
	layer := from.Layer == to.Layer
	switch {
	case from.Board != to.Board:
		return 0
	case finger && layer:
		return .5
	case layer:
		return .3
	case finger:
		return .15
	}
	return 0
}

const (
	creditShare = .2  // of the tries, times what carries over
	mostCredit  = 50. // tries
)

func (s *Scheduler) heritage(id int) heritage {
	it := &s.Items[id]
	if it.Tries > 0 {
		return heritage{credit: it.Credit}
	}
	was := s.strokes[id].Was
	if was < 0 || s.Items[was].Tries == 0 {
		return heritage{}
	}
	k := carryOver(&s.strokes[was], &s.strokes[id])
	return heritage{
		ln:     k * s.Speed.Own[was].Mean,
		logit:  k * s.Slips.Own[was].Mean,
		credit: math.Min(k*creditShare*s.Items[was].Tries, mostCredit),
	}
}

// inherit makes the heritage the stroke's own, before its first try.
func (s *Scheduler) inherit(id int) {
	h := s.heritage(id)
	s.Speed.Own[id].Mean += h.ln
	s.Slips.Own[id].Mean += h.logit
	s.Items[id].Credit = h.credit
}

// countPull notices a press of the place where the symbol was before. The
// count fades as the stroke is typed.
func (s *Scheduler) countPull(t *Try, it *item) {
	const keep = .93
	it.Pulls *= keep
	if was := s.strokes[t.ID].Was; was >= 0 && t.Wrong && s.samePlace(t.Pressed, was) {
		it.Pulls++
	}
}

func (s *Scheduler) samePlace(pressed, was int) bool {
	if pressed < 0 || pressed >= len(s.strokes) {
		return false
	}
	a, b := &s.strokes[pressed], &s.strokes[was]
	return a.Board == b.Board && a.Layer == b.Layer && a.Hand == b.Hand && a.Row == b.Row && a.Col == b.Col
}
