package session

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"underlay/corpus/code"
	"underlay/drills/board"
)

// changing shows the settings and changes them.
type changing struct {
	query
	tables []string // in an order that stays while shares change
	view   ListView
}

func (m *Model) toSettings() {
	m.push(&changing{tables: m.settings.tables()})
}

// setting is one line of the settings: what it is called, how it stands, and
// how it changes by a step up or down.
type setting struct {
	name, value, about string
	step               func(s *Settings, by int)
}

func settingsOf(s Settings, tables []string) []setting {
	out := []setting{
		{"minutes", fmt.Sprint(s.Minutes), "a sitting's length", func(s *Settings, by int) { s.Minutes = min(max(s.Minutes+by, 1), 60) }},
		{"aim", s.Aim, "speed: what you type most; coverage: every symbol reachable", cycle(func(s *Settings) *string { return &s.Aim }, "speed", "coverage")},
		{"wrong", s.Wrong, "a wrong key: wait, as-at-work (it stands), auto by kind of drill", cycle(func(s *Settings) *string { return &s.Wrong }, "auto", "wait", "as-at-work")},
		{"colours", s.Colours, "auto, dark, light, none", cycle(func(s *Settings) *string { return &s.Colours }, "auto", "dark", "light", "none")},
	}
	for _, t := range tables {
		out = append(out, setting{"mix: " + code.Title(t), fmt.Sprintf("%g", s.share(t)), "its share of your work; 0 leaves it out", mixStep(t)})
	}
	if len(s.Keeps) > 0 {
		out = append(out, setting{"keeps", strings.Join(s.Keeps, " "), "never asked for; a step down asks for the last again", func(s *Settings, by int) {
			if by < 0 {
				s.Keeps = s.Keeps[:max(0, len(s.Keeps)-1)]
			}
		}})
	}
	return out
}

// tables returns all tables, those of the mix first.
func (s Settings) tables() []string {
	out := slices.Clone(s.AllTables)
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(rank(s.share(a)), rank(s.share(b))) })
	return out
}

func rank(share float64) int {
	if share > 0 {
		return 0
	}
	return 1
}

// cycle steps through the values of a setting.
func cycle(at func(*Settings) *string, values ...string) func(*Settings, int) {
	return func(s *Settings, by int) {
		n := len(values)
		i := max(0, slices.Index(values, *at(s)))
		*at(s) = values[(i+by+n)%n]
	}
}

func (s Settings) share(table string) float64 {
	for _, w := range s.Mix {
		if w.Table == table {
			return w.Share
		}
	}
	return 0
}

// mixStep steps the share of a table; what remains is never empty.
func mixStep(table string) func(*Settings, int) {
	return func(s *Settings, by int) {
		to := max(0, s.share(table)+float64(by))
		mix := slices.DeleteFunc(slices.Clone(s.Mix), func(w Weight) bool { return w.Table == table })
		if to > 0 {
			mix = append(mix, Weight{table, to})
		}
		if len(mix) > 0 {
			s.Mix = mix
		}
	}
}

func (c *changing) key(m *Model, k Key) {
	all := settingsOf(m.settings, c.tables)
	by := 0
	switch k.Symbol {
	case board.ArrowDown, "j", board.Tab:
		c.at = min(c.at+1, len(all)-1)
	case board.ArrowUp, "k", "Shift+Tab":
		c.at = max(c.at-1, 0)
	case board.ArrowRight, "l", board.Enter, board.Space:
		by = 1
	case board.ArrowLeft, "h", board.Backspace:
		by = -1
	case board.Escape, "q", "s":
		m.back()
	case "Control+c":
		m.leave()
	}
	if by != 0 && c.at < len(all) {
		s := m.settings.clone()
		all[c.at].step(&s, by)
		m.configure(s)
	}
}

func (s Settings) clone() Settings {
	s.Boards, s.Mix, s.Keeps = slices.Clone(s.Boards), slices.Clone(s.Mix), slices.Clone(s.Keeps)
	return s
}

func (c *changing) show(m *Model, v *View) {
	all := settingsOf(m.settings, c.tables)
	c.at = min(c.at, len(all)-1)
	c.view = ListView{At: c.at, Items: c.view.Items[:0], Foot: []string{"Written to underlay.toml; your comments there stay."}}
	for _, s := range all {
		c.view.Items = append(c.view.Items, Item{Name: board.Safe(s.name), Value: board.Safe(s.value), About: s.about})
	}
	v.Title = "settings"
	v.List = &c.view
	v.Keys = append(v.Keys, Hint{"j k", "move"}, Hint{"h l", "change"}, Hint{"Escape", "back"})
}

// configuring keeps changes to one at a time.
type configuring struct{ busy, more bool }

// configure has settings written and used.
func (m *Model) configure(s Settings) {
	m.settings = s
	if m.configuring.busy {
		m.configuring.more = true
		return
	}
	m.configuring.busy = true
	m.do(Configure{Settings: s.clone()})
}

func (m *Model) configured(e Configured) {
	m.now = e.At
	again := m.configuring.more
	m.configuring = configuring{}
	if again {
		m.configure(m.settings)
		return
	}
	if m.choosing() {
		m.chosen(e)
		return
	}
	m.settings = e.Settings
	if e.Planner != nil {
		m.usePlanner(e.Planner)
	}
	m.refresh()
	switch {
	case e.Err != nil && e.Planner == nil:
		m.warn(fmt.Sprintf("that cannot be used: %v", e.Err))
	case e.Err != nil:
		m.warn(unwritten(e.Err))
	}
}

// unwritten says that settings are in use and nowhere else.
func unwritten(err error) string {
	return fmt.Sprintf("This holds for now, but is not written: %v. It is tried again when you leave.", err)
}

// usePlanner goes on with another planner. A sitting under way goes on with it,
// unless its boards have changed.
func (m *Model) usePlanner(p Planner) {
	same := slices.EqualFunc(m.planner.Boards(), p.Boards(), func(a, b *board.Board) bool { return a.Hash() == b.Hash() })
	m.planner = p
	if !m.sitting.running {
		return
	}
	if !same {
		m.endSitting("The boards have changed, so this sitting has ended.")
		return
	}
	m.sitting.plan = p.Plan(m.now, m.sitting.left())
}

// refresh makes Today show what the settings say now.
func (m *Model) refresh() {
	if _, ok := m.places[0].(*today); ok {
		rest := append([]place(nil), m.places[1:]...)
		m.toToday()
		m.places = append(m.places, rest...)
	}
}

// keepOut reports a key that never arrives: it is not asked for again.
func (m *Model) keepOut(s board.Symbol) {
	if s == "" || slices.Contains(m.settings.Keeps, string(s)) {
		return
	}
	set := m.settings.clone()
	set.Keeps = append(set.Keeps, string(s))
	m.configure(set)
	if d, ok := m.place().(*drilling); ok {
		d.record(m)
		m.advance()
	}
	m.say(fmt.Sprintf("%s is not asked for any more; Settings has it under keeps.", label(s)))
}
