package drills

import (
	"math"

	"underlay/drills/board"
)

// neighbour tells whether a stroke on the layer asked for missed the key by a
// column, by a row or by the hand.
func (w Where) neighbour(came board.Stroke) (Slip, float64) {
	asked, ok1 := w.Board.KeyAt(w.Asked.Stroke.Final().Position)
	got, ok2 := w.Board.KeyAt(came.Final().Position)
	switch {
	case !ok1 || !ok2:
		return Slip{}, 0
	case beside(asked, got):
		return Slip{Kind: ColumnSlip, Way: sideways(asked, got)}, weightColumn
	case overOrUnder(asked, got):
		return Slip{Kind: RowSlip, Way: upOrDown(asked, got)}, weightRow
	case mirrored(w.Board, asked, got):
		return Slip{Kind: MirrorSlip}, weightMirror
	}
	return Slip{}, 0
}

func middle(k board.Key) float64 { return k.X + k.W/2 }

// beside tells whether two keys are neighbours in a row. Over the gap between
// two halves no finger slips.
func beside(a, b board.Key) bool {
	columns := a.Position.Col - b.Position.Col
	return a.Row == b.Row && a.Position.Row == b.Position.Row && (columns == 1 || columns == -1) &&
		math.Abs(middle(a)-middle(b)) < (a.W+b.W)/2+.5
}

func sideways(from, to board.Key) Way {
	if middle(to) < middle(from) {
		return ToTheLeft
	}
	return ToTheRight
}

// overOrUnder tells whether two keys are neighbours in the column of a finger.
func overOrUnder(a, b board.Key) bool {
	rows := a.Row - b.Row
	return a.Hand == b.Hand && a.Finger == b.Finger && a.Finger != board.Thumb && a.Reach == b.Reach &&
		(rows == 1 || rows == -1)
}

func upOrDown(from, to board.Key) Way {
	if to.Row > from.Row {
		return Above
	}
	return Below
}

// mirrored tells whether two keys are the same place for either hand: the
// same finger, row and reach. Thumb keys are counted from the middle.
func mirrored(b *board.Board, x, y board.Key) bool {
	if x.Hand == y.Hand || x.Finger != y.Finger || x.Row != y.Row {
		return false
	}
	if x.Finger == board.Thumb {
		return fromMiddle(b, x) == fromMiddle(b, y)
	}
	return x.Reach == y.Reach
}

// fromMiddle counts the thumb keys of a hand from the middle of the board.
func fromMiddle(b *board.Board, k board.Key) int {
	n := 0
	for _, o := range b.Keys() {
		inner := o.X > k.X
		if k.Hand == board.Right {
			inner = o.X < k.X
		}
		if o.Finger == board.Thumb && o.Hand == k.Hand && inner {
			n++
		}
	}
	return n
}

// habit tells whether a stroke is what comes on this board where the hands go
// to the place that the symbol has on the other one. It gives the other
// board's name and the weight; 0: it is not.
func (w Where) habit(came board.Stroke) (string, float64) {
	if w.Other == nil || came.Layer != w.base() {
		return "", 0
	}
	there, ok := w.Other.Drilled(w.Asked.Symbol)
	if !ok {
		return "", 0
	}
	got, _ := w.Board.KeyAt(came.Final().Position)
	if samePlace(w.Other, there.Final().Position, got) {
		switch {
		case came.Final().Position == w.Asked.Stroke.Final().Position:
			return "", 0 // that is the same place on both
		case sameModifiers(came, there):
			return w.Other.Name, weightHabit
		case modifiers(came) == 0:
			return w.Other.Name, weightHabitHold // its Shift or layer has no counterpart
		}
		return "", 0
	}
	for _, h := range there.Holds() {
		if modifiers(came) == 0 && samePlace(w.Other, h.Position, got) {
			return w.Other.Name, weightHabitHold
		}
	}
	return "", 0
}

// samePlace tells whether the hands find key k of one board where they look
// for position p of another: the same finger, row and reach; for a thumb, any
// key of that thumb, and a long space bar for either.
func samePlace(other *board.Board, p board.Position, k board.Key) bool {
	o, ok := other.KeyAt(p)
	if !ok || o.Finger != k.Finger || o.Row != k.Row {
		return false
	}
	if o.Finger == board.Thumb {
		return o.Hand == k.Hand || k.W > 3
	}
	return o.Hand == k.Hand && o.Reach == k.Reach
}
