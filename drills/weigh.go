package drills

import "underlay/drills/board"

// guess is one explanation of a wrong stroke.
type guess struct {
	Slip
	weight float64
}

// The weights compare how likely each explanation is to have brought this very
// symbol: how common such slips are, divided by the number of symbols that a
// slip of that kind could have brought here. They are our own estimates, for
// somebody who is learning layers; only their order matters.
//
//   - Right position, wrong layer is the commonest slip of a learner and
//     brings one symbol: that another slip should bring the very symbol that
//     lies on the position is a coincidence of one in thirty or so. A hold
//     that is missed or turns into a tap is commoner than one let go late,
//     that one commoner than one that comes early, and to hold the wrong key
//     is rarer still.
//   - Shift is the same kind of slip with the most practised hold. Where no
//     Shift is near, it is rare.
//   - A transposition brings one symbol, and skilled typists make it often
//     (common practice); a repetition brings one, and is rarer.
//   - A habit brings one symbol. It is placed under the transposition, since
//     most strokes do not make it, and above the neighbours.
//   - A column or row slip is common, but brings one of two neighbours; the
//     hand leaves its column less often than it misses beside it.
//   - A mirror slip is the rarest.
const (
	weightMissed     = 5.0
	weightTapped     = 4.8
	weightLate       = 4.0
	weightShift      = 3.0
	weightNext       = 2.0
	weightEarly      = 1.9
	weightHabit      = 1.5
	weightColumn     = 2.0 / 2
	weightRepeat     = 0.9
	weightWrongHold  = 0.8
	weightRow        = 1.2 / 2
	weightHabitHold  = 0.55
	weightShiftAlone = 0.5
	weightMirror     = 0.4
)

// guesses lists the explanations that fit.
func (w Where) guesses() []guess {
	var out []guess
	if w.Next.Symbol == w.Got && w.Got != "" {
		out = append(out, guess{Slip{Kind: Transposition, Came: w.Next.Stroke}, weightNext})
	}
	if w.Prev.Symbol == w.Got && w.Got != "" {
		out = append(out, guess{Slip{Kind: RepeatSlip, Came: w.Prev.Stroke}, weightRepeat})
	}
	if w.Board == nil || len(w.Asked.Stroke.Keys) == 0 {
		return out
	}
	for _, came := range w.Board.Strokes(w.Got) {
		out = append(out, w.explain(came)...)
	}
	return out
}

// explain lists what a stroke that gives the symbol may have been.
func (w Where) explain(came board.Stroke) []guess {
	var out []guess
	add := func(s Slip, weight float64) {
		s.Came = came
		out = append(out, guess{s, weight})
	}
	asked := w.Asked.Stroke
	if hold, ok := w.tapped(came); ok {
		add(Slip{Kind: hold, Hold: HoldTapped}, weightTapped)
	}
	if other, weight := w.habit(came); weight > 0 {
		add(Slip{Kind: HabitSlip, Other: other}, weight)
	}
	switch {
	case came.Final().Position == asked.Final().Position && came.Layer != asked.Layer:
		hold, weight := w.layerHold(came)
		add(Slip{Kind: LayerSlip, Hold: hold}, weight)
	case came.Final().Position == asked.Final().Position:
		hold, weight := w.shiftHold(came)
		add(Slip{Kind: ShiftSlip, Hold: hold}, weight)
	case came.Layer == asked.Layer && sameModifiers(came, asked):
		if s, weight := w.neighbour(came); weight > 0 {
			add(s, weight)
		}
	}
	return out
}

func (w Where) base() string { return w.Board.Layers()[0] }

// tapped tells whether what came is the tap of a key that should have been
// held, and of which kind that slip is.
func (w Where) tapped(came board.Stroke) (SlipKind, bool) {
	if len(came.Keys) != 1 || came.Final().As != board.AsTap {
		return "", false
	}
	for _, h := range w.Asked.Stroke.Holds() {
		if h.Position != came.Final().Position {
			continue
		}
		if h.Symbol != "" {
			return ShiftSlip, true
		}
		return LayerSlip, true
	}
	return "", false
}

// layerHold says how the right position came on another layer.
func (w Where) layerHold(came board.Stroke) (Hold, float64) {
	on := func(a Ask) bool { return len(a.Stroke.Keys) > 0 && a.Stroke.Layer == came.Layer }
	switch {
	case came.Layer == w.base():
		return HoldMissed, weightMissed
	case on(w.Prev):
		return HoldLate, weightLate
	case on(w.Next):
		return HoldEarly, weightEarly
	}
	return HoldWrong, weightWrongHold
}

// shiftHold says how the right position came with other modifiers.
func (w Where) shiftHold(came board.Stroke) (Hold, float64) {
	like := func(a Ask) bool { return len(a.Stroke.Keys) > 0 && sameModifiers(a.Stroke, came) }
	switch {
	case modifiers(came) < modifiers(w.Asked.Stroke):
		return HoldMissed, weightShift
	case modifiers(came) == modifiers(w.Asked.Stroke):
		return HoldWrong, weightShiftAlone
	case like(w.Prev):
		return HoldLate, weightShift
	case like(w.Next):
		return HoldEarly, weightEarly
	}
	return HoldWrong, weightShiftAlone
}

// modifiers counts the modifiers that are held.
func modifiers(s board.Stroke) int {
	n := 0
	for _, h := range s.Holds() {
		if h.Symbol != "" {
			n++
		}
	}
	return n
}

func sameModifiers(a, b board.Stroke) bool {
	return a.Level == b.Level && modifiers(a) == modifiers(b)
}
