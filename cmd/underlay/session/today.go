package session

import (
	"time"

	"underlay/drills/board"
)

// today is the place where a sitting starts: what is planned, and why.
type today struct{ view TodayView }

func (m *Model) toToday() {
	t := &today{}
	t.view = TodayView{Board: m.boardAt(0), Other: m.boardAt(1)}
	t.view.Plan = m.planner.Plan(m.now, m.length())
	t.view.Past = m.planner.Past(m.now)
	switch past := t.view.Past; {
	case !past.Ever:
		t.view.Caution = cautions()
	case past.Today >= enough:
		t.view.Caution = []string{enoughWords}
	}
	m.home(t)
}

// length returns how long a sitting is set to last.
func (m *Model) length() time.Duration {
	return time.Duration(max(1, m.settings.Minutes)) * time.Minute
}

func (t *today) key(m *Model, k Key) {
	if k.Symbol == "Enter" {
		m.begin(m.length())
		return
	}
	m.wander(k.Symbol)
}

func (t *today) show(m *Model, v *View) {
	v.Title = "underlay"
	v.Aside = board.Safe(m.boardAt(0).Name)
	v.Today = &t.view
	v.Keys = append(v.Keys, Hint{"Enter", "start"})
	m.tellStops(v)
}
