package drills

import (
	"underlay/drills/board"
)

// SlipKind names what went wrong with a stroke.
type SlipKind string

// The kinds of slip.
const (
	LayerSlip     SlipKind = "layer"         // right position, wrong layer
	ColumnSlip    SlipKind = "column"        // one column beside
	RowSlip       SlipKind = "row"           // one row above or below
	MirrorSlip    SlipKind = "mirror"        // the same place on the other half
	HabitSlip     SlipKind = "habit"         // where the other board has the symbol
	Transposition SlipKind = "transposition" // the next symbol first
	RepeatSlip    SlipKind = "repeat"        // the symbol before once more
	ShiftSlip     SlipKind = "shift"         // right position and layer, another modifier held
	OtherSlip     SlipKind = "other"
)

// SlipKinds lists all kinds in a fixed order.
func SlipKinds() []SlipKind {
	return []SlipKind{LayerSlip, ColumnSlip, RowSlip, MirrorSlip, HabitSlip, Transposition, RepeatSlip, ShiftSlip, OtherSlip}
}

// Where is what Diagnose needs to know about a wrong stroke.
type Where struct {
	Board *board.Board
	Other *board.Board // the board that the hands know besides; nil with one alone
	Asked Ask
	Prev  Ask // what was asked before; the zero Ask at the start
	Next  Ask // what is asked after; the zero Ask at the end
	Got   board.Symbol
}

// Slip is a wrong stroke with its likeliest kind, and the values to tell it
// in words. The zero Slip stands for a right stroke.
type Slip struct {
	Kind  SlipKind
	Want  board.Symbol
	Got   board.Symbol
	Asked board.Stroke
	Came  board.Stroke // the stroke that was probably made; zero where unknown
	Hold  Hold         // what became of the hold, with a layer or Shift slip
	Way   Way          // which way, with a column or row slip
	Base  bool         // what came is on the base layer
	Other string       // name of the other board, with a habit slip
}

// Hold says what became of a hold.
type Hold int8

// What can become of a hold.
const (
	NoHold     Hold = iota // not a matter of a hold
	HoldMissed             // it came late or not at all
	HoldTapped             // it was let go so early that its key gave its tap
	HoldLate               // the hold of the stroke before was let go late
	HoldEarly              // the hold of the next stroke came early
	HoldWrong              // another key was held
)

// Way is a direction on the board.
type Way int8

// The ways.
const (
	NoWay Way = iota
	ToTheLeft
	ToTheRight
	Above
	Below
)

// Diagnose names the likeliest kind of a wrong stroke. Several kinds may
// explain one symbol; weigh.go says how they are weighed and why.
func Diagnose(w Where) Slip {
	best := guess{Slip: Slip{Kind: OtherSlip}}
	for _, g := range w.guesses() {
		if g.weight > best.weight {
			best = g
		}
	}
	s := best.Slip
	s.Want, s.Got, s.Asked = w.Asked.Symbol, w.Got, w.Asked.Stroke
	if s.Kind == OtherSlip && w.Board != nil {
		if all := w.Board.Strokes(w.Got); len(all) > 0 {
			s.Came = all[0]
		}
	}
	s.Base = w.Board != nil && len(s.Came.Keys) > 0 && s.Came.Layer == w.base()
	return s
}
