package session

import (
	"fmt"
	"slices"
	"strings"

	"underlay/drills/board"
)

// between is the rest before another block.
type between struct {
	task Task
	view RestView
}

func (m *Model) newBetween(t Task) *between {
	s := &m.sitting
	b := &between{task: t}
	b.view = RestView{Board: m.boardAt(s.board), Length: s.used - s.rested, Between: true,
		Strokes: s.part.strokes, Slips: s.part.counts(), Next: m.nextWords(t)}
	s.rested, s.part = s.used, tally{}
	return b
}

func (b *between) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter, board.Space:
		m.start(b.task)
	case board.Escape, "e":
		m.endSitting("")
	default:
		m.wander(k.Symbol)
	}
}

func (b *between) show(m *Model, v *View) {
	v.Title = "rest"
	v.Aside = leftWords(m.sitting.left())
	v.Rest = &b.view
	v.Keys = append(v.Keys, Hint{"Enter", "go on"}, Hint{"e", "end here"}, Hint{"m", "map"}, Hint{"?", "help"}, Hint{"q", "leave"})
}

// nextWords says what the next block is. What is met for the first time is
// told from the task: what is worth meeting may have changed since the plan.
func (m *Model) nextWords(t Task) []string {
	var b Block
	if i := slices.IndexFunc(m.sitting.plan.Blocks, func(b Block) bool { return b.Kind == t.Block }); i >= 0 {
		b = m.sitting.plan.Blocks[i]
	}
	out := []string{string(t.Block)}
	if b.Note != "" {
		out[0] += ": " + b.Note
	}
	about := b.About
	if t.Unmet {
		about = m.introduced(t)
	}
	for _, r := range about {
		out = append(out, fmt.Sprintf("%s  %s", board.Safe(string(r.Symbol)), r.Words))
	}
	return out[:min(len(out), 5)]
}

// introduced tells where the strokes are that a task shows first.
func (m *Model) introduced(t Task) []Reason {
	var out []Reason
	for _, k := range introduction(t).Keys {
		out = append(out, Reason{k.Symbol, strokeWords(m.boardAt(t.Board), k)})
	}
	return out
}

// rest is the end of a sitting.
type rest struct{ view RestView }

func (m *Model) newRest() *rest {
	s := &m.sitting
	past := m.planner.Past(m.now)
	r := &rest{RestView{Board: m.boardAt(0), Length: s.used, Strokes: s.tally.strokes, Slips: s.tally.counts(),
		Gains: m.planner.Gains(s.start, m.now), Today: past.Today, Week: past.Week}}
	r.view.Care = m.careWords(past)
	return r
}

func (r *rest) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter:
		m.begin(again)
	case "t", board.Escape:
		m.toToday()
	default:
		m.wander(k.Symbol)
	}
}

func (r *rest) show(m *Model, v *View) {
	v.Title = "done"
	v.Aside = board.Safe(r.view.Board.Name)
	r.view.Unsaved = len(m.saving.queue)
	v.Rest = &r.view
	v.Keys = append(v.Keys, Hint{"Enter", "3 minutes more"}, Hint{"t", "today"})
	m.tellStops(v)
}

// Words says a count of slips: "5 layer slips, 3 of them on (".
func (c SlipCount) Words() string {
	noun := c.Kind + " slip"
	switch c.Kind {
	case "transposition":
		noun = c.Kind
	case "repeat", "other":
		noun = c.Kind
	}
	if c.N > 1 && noun != "other" {
		noun += "s"
	}
	if len(c.Symbols) == 0 {
		return fmt.Sprintf("%d %s", c.N, noun)
	}
	names := make([]string, len(c.Symbols))
	for i, s := range c.Symbols {
		names[i] = board.Safe(string(s))
	}
	return fmt.Sprintf("%d %s, most on  %s", c.N, noun, strings.Join(names, "  "))
}
