package session

import (
	"slices"
	"time"

	"underlay/drills"
	"underlay/scheduler"
)

// again is how long another sitting lasts that is asked for in Rest.
const again = 3 * time.Minute

// sitting is what is under way between Today and Rest.
type sitting struct {
	running bool
	start   time.Time
	length  time.Duration
	used    time.Duration // practised, pauses not counted
	plan    Plan
	board   int // the board that is under the hands
	block   scheduler.BlockKind
	seen    map[scheduler.BlockKind]bool
	rested  time.Duration // used at the last rest
	tally   tally         // of the whole sitting
	part    tally         // since the last rest
	mixups  mixups

	switched bool // the board has changed, and nothing was recorded since
}

func (s *sitting) left() time.Duration { return max(0, s.length-s.used) }

// begin starts a sitting.
func (m *Model) begin(length time.Duration) {
	m.notice = Notice{}
	under := m.sitting.board
	m.sitting = sitting{running: true, start: m.now, length: length, board: under, seen: map[scheduler.BlockKind]bool{}}
	m.sitting.plan = m.planner.Plan(m.now, length)
	m.advance()
}

// advance goes on to the next task, by way of a rest where a new block or
// another board begins.
func (m *Model) advance() {
	s := &m.sitting
	t, ok := m.nextTask()
	switch {
	case !ok:
		m.endSitting("")
		m.interrupt()
	case t.Board != s.board:
		m.home(&taking{task: t})
		m.interrupt()
	case s.block != "" && t.Block != s.block && !s.seen[t.Block] && s.used-s.rested >= restAfter:
		m.home(m.newBetween(t))
		m.interrupt()
	default:
		m.start(t)
	}
}

// nextTask returns the next task that asks for no key that never arrives: the
// planner may not have heard of it yet.
func (m *Model) nextTask() (Task, bool) {
	for range 20 {
		t, ok := m.planner.Next(m.now, m.sitting.left())
		if !ok {
			return t, false
		}
		kept := func(k drills.Ask) bool { return slices.Contains(m.settings.Keeps, string(k.Symbol)) }
		if len(t.Drill.Keys) > 0 && !slices.ContainsFunc(t.Drill.Keys, kept) {
			return t, true
		}
	}
	return Task{}, false
}

// restAfter is how long practice goes on at least between two rests.
const restAfter = 45 * time.Second

// start starts a task; the board it is for is under the hands.
func (m *Model) start(t Task) {
	s := &m.sitting
	s.board, s.block = t.Board, t.Block
	s.seen[t.Block] = true
	m.home(m.newDrilling(t))
}

// endSitting saves what is under way and goes to Rest.
func (m *Model) endSitting(why string) {
	m.finishDrill()
	m.sitting.running = false
	m.home(m.newRest())
	if why != "" {
		m.say(why)
	}
}

// finishDrill records the drill under way as far as it has got.
func (m *Model) finishDrill() {
	for _, p := range m.places {
		if d, ok := p.(*drilling); ok {
			d.record(m)
		}
	}
}
