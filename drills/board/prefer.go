package board

import (
	"fmt"
	"slices"
	"strings"
)

// prefers reads which of several strokes is to be drilled.
func (r *reader) prefers() {
	value, there := r.doc["prefer"]
	if !there {
		return
	}
	table, ok := value.(map[string]any)
	if !ok {
		r.wrongType("prefer", `a table such as { "(" = "r2c7@marks" }`)
		return
	}
	for name := range table {
		path := join("prefer", name)
		text := r.text(table, "prefer", name)
		if text == "" {
			continue
		}
		e, err := r.vocab.parseEntry(name)
		if err != nil || e.tap.verb != gives && e.tap.verb != unseen || e.hold.verb != nothing {
			r.fault(r.places[path].key, name, fmt.Sprintf("%q is no symbol", name), "prefer = { SYMBOL = POSITION@LAYER }")
			continue
		}
		r.prefer(e.tap.symbol, text, r.places[path])
	}
}

func (r *reader) prefer(s Symbol, text string, at site) {
	name, layer, _ := strings.Cut(text, "@")
	if layer != "" && r.layerNamed(layer) < 0 {
		r.fault(at.value, text, fmt.Sprintf("no layer is named %q", layer), r.nearLayer(layer))
		return
	}
	n, err := r.keyNamed(name)
	if err != nil {
		r.fault(at.value, text, err.Error(), "prefer names a key and a layer, as in r2c7@marks")
		return
	}
	if n >= 0 {
		r.board.prefer = append(r.board.prefer, preference{s, r.board.keys[n].Position, layer, text, at.value})
	}
}

// preference says which stroke of a symbol is drilled; an empty layer is any.
type preference struct {
	symbol   Symbol
	position Position
	layer    string
	text     string
	place    place
}

// choice is the stroke of a symbol that is drilled.
type choice struct {
	at     int // which of its ways
	stroke Stroke
}

// choose writes out the preferred stroke of each symbol, or else the cheapest.
func (b *Board) choose() {
	at := map[Symbol]int{}
	for _, p := range b.prefer {
		at[p.symbol] = max(slices.IndexFunc(b.Strokes(p.symbol), p.means), 0)
	}
	chosen := make([]way, len(b.symbols))
	for i, s := range b.symbols {
		chosen[i] = b.ways[s][at[s]]
	}
	b.drilled = make(map[Symbol]choice, len(chosen))
	for i, stroke := range b.strokesOf(chosen) {
		s := b.symbols[i]
		b.drilled[s] = choice{at[s], stroke}
	}
}
