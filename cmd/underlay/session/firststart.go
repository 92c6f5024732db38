package session

import (
	"fmt"
	"slices"

	"underlay/drills/board"
)

// Offer is what a first start lets the person choose from.
type Offer struct {
	Boards  []Choice // to learn
	Others  []Choice // to keep up besides, the usual one first
	Layouts []Choice // what the computer may be set to, the likeliest first
	Learn   string   // already chosen, as a board just described; "" asks
	Begun   string   // a board whose description was interrupted; "" for none
}

// firstStart asks which board is being learned, then which one is kept up
// besides, and what the computer is set to if neither says so. Its first answers
// are those that hold without any choice.
type firstStart struct {
	query
	offer  Offer
	learn  string   // the answer to the first question, or ""
	boards []string // once both are chosen
	busy   bool     // the choice is being written

	describe Describing // the person wants to describe a board
	rows     []row
	hits     []row
	view     ListView
}

// row is an answer.
type row struct {
	item Item
	take func(m *Model)
}

// Describing says whether a person wants to describe a board by pressing its keys.
type Describing int8

const (
	NotDescribing Describing = iota
	GoOn                     // with the one that was interrupted
	Anew
)

// Describing tells whether the sitting was left in order to describe a board.
func (m *Model) Describing() Describing {
	if f, ok := m.place().(*firstStart); ok {
		return f.describe
	}
	return NotDescribing
}

func (m *Model) toFirstStart(o Offer) {
	f := &firstStart{offer: o, learn: o.Learn}
	f.ask(m)
	m.push(f)
}

// ask lists the answers to the question that is open.
func (f *firstStart) ask(m *Model) {
	f.query, f.rows = query{}, f.rows[:0]
	switch {
	case f.learn == "":
		f.askLearn(m)
	case f.boards == nil:
		f.askOther()
	default:
		f.askLayout()
	}
	f.narrow()
}

func (f *firstStart) askLearn(m *Model) {
	describe := func(how Describing) func(*Model) {
		return func(m *Model) { f.describe = how; m.leave() }
	}
	if f.offer.Begun != "" {
		f.add(Item{Name: "go on", About: "with describing " + board.Safe(f.offer.Begun) + ", which was interrupted"}, describe(GoOn))
	}
	f.add(Item{Name: "just start", About: usual(m.settings.Boards)},
		func(m *Model) { f.settle(m, m.settings.Boards, "") })
	for _, c := range f.offer.Boards {
		f.addBoard(c, func(m *Model) { f.learn = c.Name; f.ask(m) })
	}
	f.add(Item{Name: "none of these", About: "describe your own by pressing its keys"},
		describe(Anew))
}

func usual(names []string) string {
	text := "learn " + board.Safe(names[0])
	if len(names) > 1 {
		text += ", keep " + board.Safe(names[1]) + " up"
	}
	return text
}

func (f *firstStart) askOther() {
	for i, c := range f.offer.Others {
		if c.Name != f.learn {
			f.addBoard(c, func(m *Model) { f.choose(m, c.Set, f.learn, c.Name) })
		}
		if i == 0 {
			f.add(Item{Name: "none", About: "one board alone: no upkeep, no readiness"},
				func(m *Model) { f.choose(m, false, f.learn) })
		}
	}
}

func (f *firstStart) askLayout() {
	for _, l := range f.offer.Layouts {
		f.addBoard(l, func(m *Model) { f.settle(m, f.boards, l.Name) })
	}
}

// choose goes on with the boards; set tells whether the other one says what the
// computer is set to.
func (f *firstStart) choose(m *Model, set bool, boards ...string) {
	asks := func(c Choice) bool { return c.Name == f.learn && !c.Set }
	if set || len(f.offer.Layouts) == 0 || !slices.ContainsFunc(f.offer.Boards, asks) {
		f.settle(m, boards, "")
		return
	}
	f.boards = boards
	f.ask(m)
}

func (f *firstStart) addBoard(c Choice, take func(*Model)) {
	f.add(Item{Name: board.Safe(c.Name), Value: c.Shape, About: board.Safe(c.Title)}, take)
}

func (f *firstStart) add(it Item, take func(*Model)) { f.rows = append(f.rows, row{it, take}) }

// words are what an answer is searched by.
func (r row) words() string { return r.item.Name + " " + r.item.Value + " " + r.item.About }

// narrow leaves the answers that are like the query.
func (f *firstStart) narrow() {
	f.hits = like(f.text, f.rows, row.words)
	f.view = ListView{Typed: true, Query: f.text, At: f.at, Items: f.view.Items[:0], Foot: f.foot()}
	for _, r := range f.hits {
		f.view.Items = append(f.view.Items, r.item)
	}
}

func (f *firstStart) foot() []string {
	switch {
	case f.learn == "":
		return []string{"Type to search. Later, b changes it. Practise short, take breaks, and stop when anything hurts."}
	case f.boards != nil:
		return []string{"Type to search. It says what Shift makes of a digit or a mark: as the system's own settings have it, not as keys are labelled."}
	}
	return []string{"Type to search. The standard board that you go on typing on, as the computer is set."}
}

// settle has the choice written; the sitting goes on with [Configured].
func (f *firstStart) settle(m *Model, boards []string, layout string) {
	f.busy = true
	s := m.settings.clone()
	s.Boards = slices.Clone(boards)
	m.configuring.busy = true
	m.do(Configure{Settings: s, First: true, Layout: layout})
}

func (f *firstStart) key(m *Model, k Key) {
	switch {
	case k.Symbol == "Control+c":
		m.leave()
	case k.Symbol == "Control+z":
		m.do(Suspend{})
	case f.busy:
	case k.Symbol == board.Escape && f.boards != nil:
		f.boards = nil
		f.ask(m)
	case k.Symbol == board.Escape && f.learn != "":
		f.learn = ""
		f.ask(m)
	case k.Symbol == board.Escape:
		m.back()
	case k.Symbol == board.Enter:
		if f.at < len(f.hits) {
			f.hits[f.at].take(m)
		}
	case f.edit(k.Symbol, len(f.hits)):
		f.narrow()
	}
}

// choosing tells whether the choice of a first start is being written.
func (m *Model) choosing() bool {
	f, ok := m.place().(*firstStart)
	return ok && f.busy
}

// chosen goes on with the boards that were chosen, also where they could not
// be written down. Boards that cannot be used are asked for again.
func (m *Model) chosen(e Configured) {
	m.settings = e.Settings
	if e.Planner == nil {
		f := m.place().(*firstStart)
		f.busy, f.learn, f.boards = false, "", nil
		f.ask(m)
		m.warn(fmt.Sprintf("that cannot be used: %v", e.Err))
		return
	}
	m.planner = e.Planner
	m.notice = Notice{}
	if e.Err != nil {
		m.warn(unwritten(e.Err))
	}
	m.toToday()
}

func (f *firstStart) show(m *Model, v *View) {
	switch {
	case f.learn == "":
		v.Title = "which board are you learning?"
	case f.boards == nil:
		v.Title = "which board do you keep up besides " + board.Safe(f.learn) + "?"
	default:
		v.Title = "what is the computer set to?"
	}
	v.List = &f.view
	back := Hint{"Escape", "not now"}
	if f.learn != "" {
		back = Hint{"Escape", "back"}
	}
	v.Keys = append(v.Keys, Hint{"Enter", "take this"}, Hint{"Tab", "next"}, back, Hint{"Control+c", "leave"})
}
