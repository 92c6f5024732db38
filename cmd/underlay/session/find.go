package session

import (
	"strings"

	"github.com/sahilm/fuzzy"

	"underlay/drills"
	"underlay/drills/board"
)

// finding says where a symbol is, on every board of the sitting.
type finding struct {
	query
	all  []Found
	at   []int // index of the board of each of all
	view FindView
	hits []int // indices into all
}

func (m *Model) toFind() {
	f := &finding{}
	for i, b := range m.planner.Boards() {
		for _, s := range b.Symbols() {
			if st, ok := b.Drilled(s); ok {
				f.all = append(f.all, Found{Symbol: s, Label: label(s), Board: b.Name, Words: b.Words(st)})
				f.at = append(f.at, i)
			}
		}
	}
	f.look(m)
	m.push(f)
}

// String and Len make the symbols a source for the fuzzy search.
func (f *finding) String(i int) string { return string(f.all[i].Symbol) + " " + f.all[i].Label }
func (f *finding) Len() int            { return len(f.all) }

// look searches: what is written exactly so comes first, then what resembles it.
func (f *finding) look(m *Model) {
	f.hits = f.hits[:0]
	want := strings.TrimSuffix(f.text, " ")
	if want == "" && f.text != "" {
		want = string(board.Space)
	}
	seen := map[int]bool{}
	for i, x := range f.all {
		if want != "" && strings.EqualFold(string(x.Symbol), want) && !seen[i] {
			f.hits, seen[i] = append(f.hits, i), true
		}
	}
	if want != "" {
		for _, hit := range fuzzy.FindFrom(want, f) {
			if !seen[hit.Index] {
				f.hits = append(f.hits, hit.Index)
			}
		}
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
