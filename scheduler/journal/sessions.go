package journal

import (
	"cmp"
	"slices"
	"time"
)

// Session sums up the drills of one session.
type Session struct {
	Name    string
	Start   time.Time // of its first drill
	Boards  []string  // in the order in which they were met
	Kinds   []string  // of drill, likewise
	Drills  int
	Strokes int
	Wrong   int     // strokes at which another symbol came
	MS      float64 // practised: latencies, repair and pauses of drills
	Struck  bool
}

// Sessions returns all sessions, struck ones too, by the time they started.
func (h *History) Sessions() ([]Session, error) {
	index := map[string]int{}
	var list []Session
	for d, struck := range h.All() {
		i, ok := index[d.Session]
		if !ok {
			i = len(list)
			index[d.Session] = i
			list = append(list, Session{Name: d.Session, Start: d.At, Struck: struck})
		}
		list[i].add(d)
	}
	slices.SortStableFunc(list, func(a, b Session) int { return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Name, b.Name)) })
	return list, h.err
}

func (s *Session) add(d Drill) {
	if d.At.Before(s.Start) {
		s.Start = d.At
	}
	s.Boards = with(s.Boards, d.Board)
	s.Kinds = with(s.Kinds, d.Kind)
	s.Drills++
	s.Strokes += len(d.Keys)
	for _, k := range d.Keys {
		s.MS += k.MS + k.Lost
		if k.Wrong() {
			s.Wrong++
		}
	}
}

func with(list []string, name string) []string {
	if slices.Contains(list, name) {
		return list
	}
	return append(list, name)
}
