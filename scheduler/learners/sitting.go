package learners

import "time"

// sitting follows when somebody practises: since when, and on which board.
type sitting struct {
	start, switched, end time.Time
	board                int
	begun                bool
}

// apart is the time without a stroke after which a new sitting begins.
const apart = 20 * time.Minute

// begin notes a stroke on a board at a time and returns the seconds since the sitting
// began, and since it began or the board was changed in it.
func (s *sitting) begin(board int, now time.Time) (sitting, onBoard float64) {
	if !s.begun || now.Sub(s.end) > apart {
		s.start, s.switched = now, now
	} else if s.board != board {
		s.switched = now
	}
	s.begun, s.board, s.end = true, board, now
	return now.Sub(s.start).Seconds(), now.Sub(s.switched).Seconds()
}

// days between two times; 0 where the first is not known.
func days(from, to time.Time) float64 {
	if from.IsZero() {
		return 0
	}
	return max(0, to.Sub(from).Hours()/24)
}
