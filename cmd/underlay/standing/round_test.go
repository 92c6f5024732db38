package standing

import (
	"strconv"
	"testing"
	"time"
)

// Figures are rounded wherever they are, and nothing else.
func TestRound(t *testing.T) {
	at := time.Date(2026, 3, 1, 18, 0, 0, 123456789, time.UTC)
	s := Standing{At: at, Notes: []string{"x"}, Upkeep: &Upkeep{Lag: Range{.0123456, -1234567.8, 2}},
		Boards: []Side{{Name: "b", LatencyMS: Range{Value: 325.1994109}, Tries: 1234567, Strokes: []InHand{{PerMille: 2.3873606, Last: at}}}}}
	s.Readiness.Probe = &Probe{LatencyMS: [2]Range{{Value: 100.0049}, {Value: 99.99951}}}
	s.Round()
	if !s.At.Equal(at) || s.Notes[0] != "x" || s.Boards[0].Tries != 1234567 || s.Boards[0].Name != "b" || !s.Boards[0].Strokes[0].Last.Equal(at) {
		t.Errorf("%+v", s)
	}
	for got, want := range map[float64]float64{s.Upkeep.Lag.Value: .012346, s.Upkeep.Lag.Lo: -1234600, s.Boards[0].LatencyMS.Value: 325.2,
		s.Boards[0].Strokes[0].PerMille: 2.3874, s.Readiness.Probe.LatencyMS[0].Value: 100} {
		if got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
}

// Against the rounding of the standard library's formatting.
func TestSignificant(t *testing.T) {
	for _, x := range []float64{0, 1, .1, 123456, 99999.4, 99999.6, 1e-7 / 3, 2.0 / 3, -1e9 / 7, 325.1994, 5e-324} {
		want, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 5, 64), 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := significant(x); got != want && x > 1e-300 {
			t.Errorf("significant(%v) = %v, want %v", x, got, want)
		}
	}
}
