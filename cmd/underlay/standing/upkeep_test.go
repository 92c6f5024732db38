package standing

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Against a paired comparison: with the same strokes at both times, each
// once, the lag is the mean difference of the pairs.
func TestLagIsTheMeanDifferenceOfPairs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var first, now []sample
	sum := 0.0
	for id := range 60 {
		a, b := float32(5.5+r.NormFloat64()), float32(5.6+r.NormFloat64())
		first, now = append(first, sample{id, a, int32(id % 4)}), append(now, sample{id, b, int32(10 + id%4)})
		sum += float64(b) - float64(a)
	}
	if got := lagOf(first, now); math.Abs(got.Value-sum/60) > 1e-9 {
		t.Errorf("lag %v, the pairs differ by %v", got.Value, sum/60)
	}
}

// Where other strokes are typed later, slower ones by nature, the lag does not
// take that for fading.
func TestLagDoesNotMindWhichStrokes(t *testing.T) {
	level := func(id int) float32 { return 5 + .1*float32(id) }
	var first, now []sample
	for i := range 150 {
		first = append(first, sample{i % 10, level(i % 10), int32(i / 40)})
		now = append(now, sample{5 + i%20, level(5+i%20) + .1, int32(20 + i/40)})
	}
	if got := lagOf(first, now); math.Abs(got.Value-.1) > 1e-5 {
		t.Errorf("lag %v, want .1", got.Value)
	}
	if got := lagOf(first[:1], now[5:6]); !math.IsInf(got.Hi, 1) {
		t.Errorf("without a stroke at both times: %v", got)
	}
}

// The range holds the truth about four times of five, with sittings that
// differ: own simulation of 400 typists without any lag.
func TestLagsRangeHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	draw := func(from int) (out []sample) {
		day := 0.0
		for i := range 150 {
			if i%50 == 0 {
				day = .04 * r.NormFloat64()
			}
			id := r.IntN(40)
			out = append(out, sample{id, float32(5.4 + .01*float64(id) + day + .3*r.NormFloat64()), int32(from + i/50)})
		}
		return out
	}
	held := 0
	for range 400 {
		if lag := lagOf(draw(0), draw(10)); lag.Lo < 0 && lag.Hi > 0 {
			held++
		}
	}
	if held < 270 || held > 360 {
		t.Errorf("the range holds nothing in %d of 400, want about 320", held)
	}
}
