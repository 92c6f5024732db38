package board

import (
	"math"
	"testing"
)

// The effort of presses that a board has as a stroke is that of the stroke.
func TestEffortOfPresses(t *testing.T) {
	b, err := Load("split-38")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range b.Symbols() {
		for _, st := range b.Strokes(s) {
			if got := b.Effort(st.Keys); got != st.Effort {
				t.Errorf("%s as %s: Effort = %v, the stroke says %v", s, st, got, st.Effort)
			}
		}
	}
	if got := b.Effort([]Press{{Position: Position{Row: 9, Col: 9}}}); !math.IsInf(got, 1) {
		t.Errorf("a position that is not there: Effort = %v, want +Inf", got)
	}
}
