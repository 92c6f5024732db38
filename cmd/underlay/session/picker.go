package session

import "underlay/drills/board"

// picker goes to a place by its name.
type picker struct {
	query
	stops []stop
	hits  []stop
	view  ListView
}

func (m *Model) toPicker() {
	p := &picker{stops: stops(m)}
	if !m.sitting.running {
		start := stop{board.Enter, "start", "begin the sitting", func(m *Model) { m.begin(m.length()) }}
		p.stops = append([]stop{start}, p.stops...)
	}
	p.look()
	m.push(p)
}

func (p *picker) look() {
	p.hits = like(p.text, p.stops, func(s stop) string { return s.name + " " + s.does })
	p.view = ListView{Typed: true, Query: p.text, At: p.at, Items: p.view.Items[:0]}
	for _, s := range p.hits {
		p.view.Items = append(p.view.Items, Item{Name: s.name, About: s.does})
	}
}

func (p *picker) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Escape:
		m.back()
	case "Control+c":
		m.leave()
	case board.Enter:
		if p.at < len(p.hits) {
			m.back()
			p.hits[p.at].to(m)
		}
	default:
		if p.edit(k.Symbol, len(p.hits)) {
			p.look()
		}
	}
}

func (p *picker) show(m *Model, v *View) {
	v.Title = "go to"
	v.List = &p.view
	v.Keys = append(v.Keys, Hint{"Enter", "go"}, Hint{"Tab", "next"}, Hint{"Escape", "back"})
}
