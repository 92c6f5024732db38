package drills

import "underlay/drills/board"

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
	ShiftSlip     SlipKind = "shift"         // right position and layer, wrong level
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
	Asked board.Stroke
	Came  board.Stroke // the stroke that was probably made; zero where unknown
	Got   board.Symbol
	Want  board.Symbol
	Other string // the other board's name, with a habit slip
	Hold  Hold   // what became of the hold, with a layer slip
}

// Hold says what became of the hold in a layer slip.
type Hold int8

// What can become of a hold.
const (
	HoldNone   Hold = iota // not a matter of one hold
	HoldMissed             // the base layer came: the hold came late or not at all
	HoldTapped             // the tap of the hold key came: it was let go before the key was pressed
	HoldLate               // the layer of the stroke before came: its hold was let go late
	HoldEarly              // the layer of the next stroke came: its hold came early
	HoldWrong              // another layer came: another key was held
)

// Diagnose names the likeliest kind of a wrong stroke.
func Diagnose(w Where) Slip {
	return Slip{Kind: OtherSlip, Asked: w.Asked.Stroke, Got: w.Got, Want: w.Asked.Symbol}
}

// Words tells the slip in one short line.
func (s Slip) Words() string {
	if s.Kind == "" {
		return ""
	}
	return "that was " + string(s.Got)
}
