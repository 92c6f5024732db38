package drills

import (
	"fmt"

	"underlay/drills/board"
)

// Words tells the slip in one short line.
func (s Slip) Words() string {
	got := board.Safe(KeyName(s.Got))
	want := board.Safe(KeyName(s.Want))
	switch s.Kind {
	case "":
		return ""
	case LayerSlip:
		return "layer slip: " + s.layerWords()
	case ShiftSlip:
		return s.modifier() + " slip: " + s.shiftWords()
	case ColumnSlip, RowSlip:
		return fmt.Sprintf("%s slip: %s is %s %s", s.Kind, got, s.Way, want)
	case MirrorSlip:
		return fmt.Sprintf("mirror slip: %s is the same place under the other hand", got)
	case HabitSlip:
		return fmt.Sprintf("habit slip: that is where %s has %s", board.Safe(s.Other), want)
	case Transposition:
		return fmt.Sprintf("transposition: %s comes after %s", got, want)
	case RepeatSlip:
		return fmt.Sprintf("repeat: %s came once more", got)
	}
	return fmt.Sprintf("that was %s, not %s", got, want)
}

func (w Way) String() string {
	return [...]string{"", "one to the left of", "one to the right of", "one above", "one below"}[w]
}

func (s Slip) layerWords() string {
	layer := "the " + board.Safe(s.Came.Layer) + " layer"
	if s.Base {
		layer = "the base layer"
	}
	place := "that was the same place on " + layer
	switch s.Hold {
	case HoldTapped:
		return tapWords
	case HoldMissed:
		if len(s.Asked.Holds()) == 0 {
			return place + ", so its layer was not on"
		}
		return place + ", so the hold came late"
	case HoldLate:
		return place + ", let go late"
	case HoldEarly:
		return place + ", held early"
	}
	return place + ", which was on"
}

const tapWords = "the hold was let go so soon that it was a tap"

func (s Slip) shiftWords() string {
	switch s.Hold {
	case HoldTapped:
		return tapWords
	case HoldMissed:
		return s.modifier() + " came late"
	case HoldLate:
		return s.modifier() + " was let go late"
	case HoldEarly:
		return s.modifier() + " came early"
	}
	return fmt.Sprintf("that was the same key as %s", board.Safe(KeyName(s.Want)))
}

// modifier names the modifier in which the two strokes differ.
func (s Slip) modifier() string {
	one := func(from, other board.Stroke) string {
		for _, h := range from.Holds() {
			if h.Symbol != "" && !holds(other, h.Symbol) {
				return KeyName(h.Symbol)
			}
		}
		return ""
	}
	if m := one(s.Asked, s.Came); m != "" {
		return m
	}
	if m := one(s.Came, s.Asked); m != "" {
		return m
	}
	return "Shift"
}

func holds(s board.Stroke, m board.Symbol) bool {
	for _, h := range s.Holds() {
		if h.Symbol == m {
			return true
		}
	}
	return false
}
