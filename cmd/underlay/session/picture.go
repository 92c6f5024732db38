package session

import (
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// picture is the underlay: what stands on the keys of one layer.
type picture struct {
	board  *board.Board
	keys   []board.Key
	legend map[string][]Cap // by layer, without the stroke that is asked for
	layer  string
	caps   []Cap // with it
	make   func(layer string) []Cap
}

// newPicture returns the picture of a board for a drill. Legends of strokes
// that are steady are left off; unaided, all are.
func newPicture(m *Model, i int, unaided bool) picture {
	b := m.boardAt(i)
	p := picture{board: b, keys: b.Keys(), legend: map[string][]Cap{}}
	p.make = func(layer string) []Cap {
		return capsOf(b, p.keys, layer, func(s board.Symbol) Mark {
			st := m.planner.Standing(i, s, m.now).State
			switch {
			case unaided || st == scheduler.Steady:
				return Off
			case st == scheduler.Unmet:
				return Lit
			}
			return Dim
		})
	}
	return p
}

// capsOf returns the legends of a layer; mark says how the drilled stroke of a
// symbol stands out.
func capsOf(b *board.Board, keys []board.Key, layer string, mark func(board.Symbol) Mark) []Cap {
	caps := make([]Cap, len(keys))
	for i, k := range keys {
		l := b.Legend(layer, k.Position)
		c := Cap{Text: l.Short()}
		sym, ok := b.Gives(layer, k.Position)
		switch {
		case l.Never:
			c.Mark = Never
		case l.Unseen:
			c.Mark = Unseen
		case ok && drilledAt(b, sym, layer, k.Position):
			c.Mark = mark(sym)
		}
		caps[i] = c
	}
	return caps
}

// drilledAt tells whether a symbol is drilled with this key of this layer.
func drilledAt(b *board.Board, s board.Symbol, layer string, p board.Position) bool {
	st, ok := b.Drilled(s)
	return ok && st.Layer == layer && st.Final().Position == p
}

// point marks the stroke that is asked for: the key to press and those to
// hold, where it is to be shown.
func (p *picture) point(a drills.Ask, shown bool) {
	layer := a.Stroke.Layer
	plain, ok := p.legend[layer]
	if !ok {
		plain = p.make(layer)
		p.legend[layer] = plain
	}
	p.layer = layer
	p.caps = append(p.caps[:0], plain...)
	if !shown {
		return
	}
	for _, pr := range a.Stroke.Keys {
		i := p.index(pr.Position)
		if i < 0 {
			continue
		}
		if pr.As == board.AsHold || pr.As == board.AsLatch || pr.As == board.AsLock {
			p.caps[i].Mark = Hold
			p.caps[i].Text = p.board.Legend(p.board.Layers()[0], pr.Position).Short()
		}
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
