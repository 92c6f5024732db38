package session

import (
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// legend is what stands on a key of a layer, whatever is asked for.
type legend struct {
	cap    Cap
	symbol board.Symbol // that is drilled with this key of this layer, or ""
}

// engraving is a board's keys and the legends of its layers, made when they
// are first wanted.
type engraving struct {
	board  *board.Board
	base   string // name of the base layer
	keys   []board.Key
	layers map[string][]legend
}

func engrave(b *board.Board) *engraving {
	return &engraving{board: b, base: b.Base(), keys: b.Keys(), layers: map[string][]legend{}}
}

// engraved returns the legends of a board of the sitting.
func (m *Model) engraved(i int) *engraving {
	b := m.boardAt(i)
	if e := m.engravings[i&1]; e == nil || e.board != b {
		m.engravings[i&1] = engrave(b)
	}
	return m.engravings[i&1]
}

// of returns the legends of a layer, in the order of the keys.
func (e *engraving) of(layer string) []legend {
	if l, ok := e.layers[layer]; ok {
		return l
	}
	out := make([]legend, len(e.keys))
	for i, k := range e.keys {
		l := e.board.Legend(layer, k.Position)
		out[i].cap.Text = l.Short()
		sym, ok := e.board.Gives(layer, k.Position)
		switch {
		case l.Never:
			out[i].cap.Mark = Never
		case l.Unseen:
			out[i].cap.Mark = Unseen
		case ok && drilledAt(e.board, sym, layer, k.Position):
			out[i].symbol = sym
		}
	}
	e.layers[layer] = out
	return out
}

// drilledAt tells whether a symbol is drilled with this key of this layer.
func drilledAt(b *board.Board, s board.Symbol, layer string, p board.Position) bool {
	st, ok := b.Drilled(s)
	return ok && st.Layer == layer && st.Final().Position == p
}

// picture is the underlay: what stands on the keys of one layer.
type picture struct {
	*engraving
	mark  func(board.Symbol) Mark // how the stroke of a symbol stands out
	plain map[string][]Cap        // by layer, without the stroke that is asked for
	layer string
	caps  []Cap // with it
}

// newPicture returns the picture of a board for a drill. Legends of strokes
// that are steady are left off; unaided, all are.
func newPicture(m *Model, i int, unaided bool) picture {
	return picture{engraving: m.engraved(i), plain: map[string][]Cap{}, mark: func(s board.Symbol) Mark {
		st := m.planner.Standing(i, s, m.now).State
		switch {
		case unaided || st == scheduler.Steady:
			return Off
		case st == scheduler.Unmet:
			return Lit
		}
		return Dim
	}}
}

// wholePicture returns the picture with all legends.
func wholePicture(e *engraving) picture {
	return picture{engraving: e, plain: map[string][]Cap{}, mark: func(board.Symbol) Mark { return Dim }}
}

// under returns what stands on the keys of a layer.
func (p *picture) under(layer string) []Cap {
	if caps, ok := p.plain[layer]; ok {
		return caps
	}
	legends := p.of(layer)
	caps := make([]Cap, len(legends))
	for i, l := range legends {
		caps[i] = l.cap
		if l.symbol != "" {
			caps[i].Mark = p.mark(l.symbol)
		}
	}
	p.plain[layer] = caps
	return caps
}

// point marks the stroke that is asked for: the key to press and those to
// hold, where it is to be shown.
func (p *picture) point(a drills.Ask, shown bool) {
	p.layer = a.Stroke.Layer
	p.caps = append(p.caps[:0], p.under(p.layer)...)
	if !shown {
		return
	}
	if a.Answer == "" {
		p.markHolds(a.Stroke)
	}
	for _, pr := range a.Stroke.Keys {
		if last := a.Stroke.Final(); pr.Position == last.Position || pr.As == board.AsCombo {
			if i := p.index(pr.Position); i >= 0 {
				p.caps[i].Mark = Here
			}
		}
	}
	if i := p.index(a.Stroke.Final().Position); i >= 0 && a.Symbol.IsCharacter() {
		p.caps[i].Text = string(a.Symbol)
	}
}

func (p *picture) index(pos board.Position) int {
	for i := range p.keys {
		if p.keys[i].Position == pos {
			return i
		}
	}
	return -1
}

// markHolds marks the keys that are held, or tapped on the way.
func (p *picture) markHolds(st board.Stroke) {
	for _, pr := range st.Keys {
		i := p.index(pr.Position)
		if i < 0 {
			continue
		}
		if pr.As == board.AsHold || pr.As == board.AsLatch || pr.As == board.AsLock {
			p.caps[i].Mark = Hold
			p.caps[i].Text = p.of(p.base)[i].cap.Text
		}
	}
}
