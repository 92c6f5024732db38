package scheduler

import "time"

// Worth is what the plan takes a ms of practice of a stroke to be worth.
func (s *Scheduler) Worth(id int, at time.Time) float64 {
	n := 0.0
	for k := range s.strokes {
		if s.drilled(k, s.strokes[id].Board) {
			n++
		}
	}
	rate, _ := s.worthOf(id, seconds(at.Add(horizon)), s.weight(id, n, s.ripeness()))
	return rate
}
