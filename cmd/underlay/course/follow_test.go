package course

import (
	"math"
	"testing"
)

// Every stroke of the work is followed by something as often as it is typed, those that no
// text shows included; they come before and after everything.
func TestFollowsMakeUpTheWork(t *testing.T) {
	c := embedded(t, nil)
	begun, ended, met := map[int]float64{}, map[int]float64{}, map[[2]int]bool{}
	for _, f := range c.Follows(0) {
		begun[f.First] += f.Share
		ended[f.Then] += f.Share
		if met[[2]int{f.First, f.Then}] {
			t.Fatalf("%s before %s twice", c.Stroke(f.First).Symbol, c.Stroke(f.Then).Symbol)
		}
		met[[2]int{f.First, f.Then}] = true
	}
	total, keys := 0.0, 0
	for id, f := range c.strokes.features {
		if f.Board != 0 || f.Retired || f.Freq == 0 {
			continue
		}
		symbol := c.Stroke(id).Symbol
		total += begun[id]
		if math.Abs(begun[id]-f.Freq) > 1e-9 {
			t.Errorf("%s is %v of the work, and followed in %v", symbol, f.Freq, begun[id])
		}
		if !f.Text || symbol == "Tab" {
			keys++
			if math.Abs(ended[id]-f.Freq) > 1e-9 {
				t.Errorf("%s is %v of the work, and follows in %v", symbol, f.Freq, ended[id])
			}
		}
	}
	esc, _ := c.ID(0, "Escape")
	e, _ := c.ID(0, "e")
	if math.Abs(total-1) > 1e-9 || keys < 20 || !met[[2]int{esc, e}] || !met[[2]int{e, esc}] || !met[[2]int{esc, esc}] {
		t.Errorf("%v of the work, %d keys", total, keys)
	}
}
