package session

import (
	"fmt"
	"time"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// retryAfter is how long a failed save waits before it is tried again.
const retryAfter = 3 * time.Second

// saving keeps the drills that are not on the journal yet, oldest first.
type saving struct {
	queue   []Record
	busy    bool      // the first of the queue is under way
	failed  error     // why the last try failed, or nil
	retry   time.Time // when to try again; zero: not
	leaving bool      // leave as soon as the queue is empty
	hurried bool      // leave even if it cannot be emptied
}

// record learns from a drill and has it saved.
func (m *Model) record(d journal.Drill, on *board.Board) {
	m.planner.Observe(d)
	m.saving.queue = append(m.saving.queue, Record{d, on})
	if m.saving.failed == nil {
		m.save()
	}
}

// save starts to save the oldest drill that waits.
func (m *Model) save() {
	s := &m.saving
	if s.busy || len(s.queue) == 0 {
		return
	}
	s.busy, s.retry = true, time.Time{}
	m.do(s.queue[0])
}

func (m *Model) saved(e Saved) {
	s := &m.saving
	s.busy = false
	if e.Err != nil {
		if s.hurried {
			m.do(Leave{})
			return
		}
		s.failed, s.retry = e.Err, e.At.Add(retryAfter)
		m.warn(fmt.Sprintf("not saved: %v. It is tried again; %s waiting.", e.Err, drillCount(len(s.queue))))
		if s.leaving {
			s.leaving = false
			m.push(unsaved{})
		}
		return
	}
	if len(s.queue) > 0 {
		s.queue = s.queue[1:]
	}
	if s.failed != nil && len(s.queue) == 0 {
		s.failed = nil
		m.say("All is saved now.")
	}
	m.save()
	if s.leaving && len(s.queue) == 0 {
		m.do(Leave{})
	}
}

// tryAgain saves what failed, once its time has come.
func (m *Model) tryAgain() {
	if r := m.saving.retry; !r.IsZero() && !m.now.Before(r) {
		m.save()
	}
}

// leave ends the program once all is saved.
func (m *Model) leave() {
	m.finishDrill()
	switch s := &m.saving; {
	case len(s.queue) == 0:
		m.do(Leave{})
	case s.failed != nil:
		m.push(unsaved{})
	default:
		s.leaving = true
	}
}

// stop ends the program without asking, once all is saved or cannot be.
func (m *Model) stop() {
	m.finishDrill()
	s := &m.saving
	if len(s.queue) == 0 {
		m.do(Leave{})
		return
	}
	s.leaving, s.hurried = true, true
	m.save()
}

func drillCount(n int) string {
	if n == 1 {
		return "1 drill is"
	}
	return fmt.Sprintf("%d drills are", n)
}

// unsaved is the question before leaving with something unsaved.
type unsaved struct{}

func (unsaved) key(m *Model, k Key) {
	switch k.Symbol {
	case "Enter":
		m.back()
		m.saving.leaving = true
		m.save()
	case "Escape":
		m.back()
	case "q", "Control+c":
		m.do(Leave{})
	}
}

func (unsaved) show(m *Model, v *View) {
	v.Title = "not saved"
	v.Notice = Notice{} // it would say the same
	v.Page = &PageView{Lines: []string{
		fmt.Sprintf("%s not saved.", drillCount(len(m.saving.queue))),
		fmt.Sprintf("The cause: %v", m.saving.failed),
	}}
	v.Keys = append(v.Keys, Hint{"Enter", "try again and leave"}, Hint{"Escape", "go back"}, Hint{"q", "leave without them"})
}
