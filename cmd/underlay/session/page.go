package session

import (
	"unicode/utf8"

	"underlay/drills/board"
)

// page is text to read.
type page struct {
	title string
	about string // beside the title
	view  PageView
}

// toProgress asks for a report; all of the journal may have to be read for it.
func (m *Model) toProgress() {
	m.report = &page{title: "progress", view: PageView{Lines: []string{"Reading the journal."}}}
	m.push(m.report)
	m.do(Report{Width: m.pageWidth()})
}

// reported shows a report on the page that was opened for it last.
func (m *Model) reported(e Reported) {
	m.pass(e.At)
	if m.report != nil {
		m.report.about, m.report.view.Lines = e.About, e.Lines
		m.report = nil
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
		p.turn(m, 1, last)
	case board.PageUp, "b":
		p.turn(m, -1, last)
	case board.Escape, "q", "?":
		m.back()
	case "Control+c":
		m.leave()
	}
}

// pageStep is by how many rows a page is turned: fewer than the smallest
// window shows.
const pageStep = 12

// turn goes on or back (by is 1 or -1) by lines that take pageStep rows.
func (p *page) turn(m *Model, by, last int) {
	width := m.pageWidth()
	for rows := 0; ; p.view.Top += by {
		next := p.view.Top + min(by, 0)
		if next < 0 || p.view.Top+by > last {
			return
		}
		if rows += 1 + max(0, utf8.RuneCountInString(p.view.Lines[next])-1)/width; rows > pageStep {
			return
		}
	}
}

// pageWidth is how many cells a line of a page has.
func (m *Model) pageWidth() int {
	if m.width <= 0 {
		return 78
	}
	return max(10, m.width-2)
}

func (p *page) show(m *Model, v *View) {
	v.Title, v.Aside = p.title, p.about
	v.Page = &p.view
	v.Keys = append(v.Keys, Hint{"Space", "further"}, Hint{"b", "back up"}, Hint{"Escape", "leave this page"})
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
			"Where one of these is asked for, or could come by a slip, it is no command: the bottom line names another way.",
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
