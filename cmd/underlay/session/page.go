package session

import "underlay/drills/board"

// page is text to read.
type page struct {
	title string
	view  PageView
}

func (m *Model) toProgress() {
	if p, ok := m.planner.(Progresser); ok {
		m.push(&page{title: "progress", view: PageView{Lines: p.Progress(m.now)}})
	}
}

func (m *Model) toHelp() {
	m.push(&page{title: "help", view: PageView{Lines: helpLines()}})
}

func (p *page) key(m *Model, k Key) {
	last := max(0, len(p.view.Lines)-1)
	switch k.Symbol {
	case board.ArrowDown, "j", board.Enter:
		p.view.Top = min(p.view.Top+1, last)
	case board.ArrowUp, "k":
		p.view.Top = max(p.view.Top-1, 0)
	case board.Space, board.PageDown:
		p.view.Top = min(p.view.Top+pageStep, last)
	case board.PageUp:
		p.view.Top = max(p.view.Top-pageStep, 0)
	case board.Escape, "q", "?":
		m.back()
	case "Control+c":
		m.leave()
	}
}

// pageStep is by how many lines a page is turned: it fits the smallest window.
const pageStep = 12

func (p *page) show(m *Model, v *View) {
	v.Title = p.title
	v.Page = &p.view
	v.Keys = append(v.Keys, Hint{"Space", "further"}, Hint{"k", "a line back"}, Hint{"Escape", "back"})
}

// helpLines are the paragraphs of the help.
func helpLines() []string {
	lines := []string{
		"A drill shows what to type, and below it what you have typed. Under that lies the underlay: the layer that is needed, as your board is. " +
			"The key to press is reversed in [ ], keys to hold stand in < >, and the words say the same.",
		"",
		"Legends of strokes you know are left off. Hesitate, and they come back; the stroke then counts as helped, and its time is not taken for your speed.",
		"",
		"Escape pauses, Control+c leaves; all that was done is kept. Control+n says that a key never arrives: it is not asked for again. " +
			"Where a drill asks for one of these it is the answer, and the bottom line names another.",
		"",
		"Slips are told by kind:",
		"  layer          right place, another layer: the hold came late or stayed too long",
		"  column, row    one column or one row beside",
		"  mirror         the same place on the other half",
		"  habit          where the other board has it",
		"  transposition  the next symbol came first",
		"  repeat         the symbol before, once more",
		"  shift          right key, Shift missed or too much",
		"",
		"On the map: · unmet, ◔ building, ● steady, ◌ fading, with the time in ms.",
		"",
		"Care for the hands:",
	}
	return append(lines, cautions()...)
}
