package session

import (
	"strings"

	"underlay/drills"
	"underlay/drills/board"
)

// finding says where a symbol is, on every board of the sitting.
type finding struct {
	query
	all   []Found
	at    []int // index of the board of each of all
	among []board.Symbol
	where map[board.Symbol][]int // indices into all
	view  FindView
	hits  []int // indices into all
}

func (m *Model) toFind() {
	f := &finding{where: map[board.Symbol][]int{}}
	for i, b := range m.planner.Boards() {
		for _, s := range b.Symbols() {
			if st, ok := b.Drilled(s); ok {
				if f.where[s] == nil {
					f.among = append(f.among, s)
				}
				f.where[s] = append(f.where[s], len(f.all))
				f.all = append(f.all, Found{Symbol: s, Label: label(s), Board: b.Name, Words: b.Words(st)})
				f.at = append(f.at, i)
			}
		}
	}
	f.look(m)
	m.push(f)
}

// look searches by symbols, their keys' names and what people call them.
func (f *finding) look(m *Model) {
	f.hits = f.hits[:0]
	want := f.text
	if want != "" && strings.TrimSpace(want) == "" {
		want = string(board.Space)
	}
	for _, s := range board.Find(want, f.among) {
		f.hits = append(f.hits, f.where[s]...)
	}
	f.view.Query, f.view.Found, f.view.At = f.text, f.view.Found[:0], f.query.at
	for _, h := range f.hits {
		f.view.Found = append(f.view.Found, f.all[h])
	}
	f.picture(m)
}

// picture points out the stroke that is chosen.
func (f *finding) picture(m *Model) {
	f.view.Board, f.view.Keys = nil, nil
	if f.query.at >= len(f.hits) {
		return
	}
	h := f.hits[f.query.at]
	b := m.boardAt(f.at[h])
	st, _ := b.Drilled(f.all[h].Symbol)
	p := wholePicture(m.engraved(f.at[h]))
	p.point(drills.Ask{Symbol: f.all[h].Symbol, Stroke: st}, true)
	f.view.Board, f.view.Layer, f.view.Keys = b, p.layer, p.caps
}

func (f *finding) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Escape, board.Enter:
		m.back()
	case "Control+c":
		m.leave()
	default:
		if f.edit(k.Symbol, len(f.hits)) {
			f.look(m)
		}
	}
}

func (f *finding) show(m *Model, v *View) {
	v.Title = "find"
	v.Aside = "type a symbol or its name"
	v.Find = &f.view
	v.Keys = append(v.Keys, Hint{"Tab", "next"}, Hint{"Shift+Tab", "before"}, Hint{"Escape", "back"})
}
