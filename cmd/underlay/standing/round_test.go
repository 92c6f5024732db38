package standing

import (
	"testing"
	"time"
)

// Figures are rounded wherever they are; all else, and what they were rounded
// from, stays.
func TestRounded(t *testing.T) {
	at := time.Date(2026, 3, 1, 18, 0, 0, 123456789, time.UTC)
	s := Standing{At: at, Notes: []string{"x"}, Upkeep: &Upkeep{Lag: Range{.0123456, -1234567.8, 2}},
		Boards: []Side{{Name: "b", LatencyMS: Range{Value: 325.1994109}, Tries: 1234567, Strokes: []InHand{{PerMille: 2.3873606}}}}}
	s.Readiness.Probe = &Probe{LatencyMS: [2]Range{{Value: 100.0049}, {Value: 99.99951}}}
	r := s.Rounded()
	if !r.At.Equal(at) || r.Notes[0] != "x" || r.Boards[0].Tries != 1234567 || r.Boards[0].Name != "b" {
		t.Errorf("%+v", r)
	}
	for got, want := range map[float64]float64{r.Upkeep.Lag.Value: .012346, r.Upkeep.Lag.Lo: -1234600, r.Boards[0].LatencyMS.Value: 325.2,
		r.Boards[0].Strokes[0].PerMille: 2.3874, r.Readiness.Probe.LatencyMS[0].Value: 100, r.Readiness.Probe.LatencyMS[1].Value: 100} {
		if got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
	if s.Upkeep.Lag.Value != .0123456 || s.Boards[0].Strokes[0].PerMille != 2.3873606 {
		t.Errorf("what was rounded has changed: %+v", s)
	}
}
