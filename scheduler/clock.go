package scheduler

import (
	"math"
	"time"
)

// clock keeps the user's sessions, by the times of the tries.
type clock struct {
	Last      float64    // of the last try, Unix seconds
	Session   float64    // when the session under way began
	BoardFrom float64    // since when its board has been the same
	Board     int        // that board
	Changed   bool       // another board came before it in this session
	Here      [2]float64 // tries in this session, by board
	All       [2]float64 // tries in all, by board
	Yardstick float64    // see yardstick; as of the beginning of the session
}

const (
	betweenSessions = 1800.0 // seconds without a try
	leastTries      = 20.0   // of a session that counts as practised on a board
	enoughTries     = 150.0  // before a board's speed is a measure for others
)

// keepTime notices new sessions and changes of the board.
func (s *Scheduler) keepTime(now float64, board int) {
	c := &s.Clock
	if c.All == [2]float64{} || math.Abs(now-c.Last) > betweenSessions {
		s.endSession()
		s.Speed.nextSession()
		s.Slips.nextSession()
		c.Session, c.BoardFrom, c.Board, c.Changed = now, now, board, false
		c.Here = [2]float64{}
		c.Yardstick = s.yardstick()
	} else if board != c.Board {
		c.BoardFrom, c.Board, c.Changed = now, board, true
	}
	c.Last = now
}

// countTry counts a try of a board.
func (s *Scheduler) countTry(board int, now float64) {
	s.Clock.Here[board]++
	s.Clock.All[board]++
	if board == 1 && s.Clock.All[1] == enoughTries {
		s.Upkeep.First = math.Log(s.pace(1, now).MS)
	}
}

// endSession keeps what the session that is over has shown.
func (s *Scheduler) endSession() {
	for b := range s.Points {
		if p, ok := s.sessionPoint(b); ok {
			s.Points[b] = append(s.Points[b], p)
		}
	}
	if s.Clock.Here[1] > 0 {
		s.Upkeep.watch(math.Log(s.pace(1, s.Clock.Last).MS))
	}
}

// sessionPoint is the pace of the session under way, if it was practice: as
// it is expected on the next day.
func (s *Scheduler) sessionPoint(board int) (Point, bool) {
	if s.Clock.Here[board] < leastTries {
		return Point{}, false
	}
	return s.pace(board, s.Clock.Last+day/2), true
}

// yardstick is the speed that other speeds are held against, ms a stroke: that
// of the other board; without one that of the plain base layer.
func (s *Scheduler) yardstick() float64 {
	switch {
	case s.opts.OldMS > 0:
		return s.opts.OldMS
	case s.Clock.All[1] >= enoughTries:
		return s.pace(1, s.Clock.Last).MS
	case s.Clock.All[0] >= enoughTries:
		if p := s.paceOf(s.Clock.Last, func(id int) bool { return s.drilled(id, 0) && s.strokes[id].Layer == 0 }); p.MS > 0 {
			return p.MS
		}
	}
	return math.Exp(s.Speed.prior.board[1].Mean)
}

// Course returns the pace on a board after each practised session, the one
// under way included.
func (s *Scheduler) Course(board int) []Point {
	if board < 0 || board > 1 {
		return nil
	}
	out := append([]Point(nil), s.Points[board]...)
	if p, ok := s.sessionPoint(board); ok {
		out = append(out, p)
	}
	return out
}

func clockTime(sec float64) time.Time {
	whole := math.Floor(sec)
	return time.Unix(int64(whole), int64((sec-whole)*1e9))
}
