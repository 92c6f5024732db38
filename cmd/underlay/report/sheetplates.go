package report

import (
	"strings"

	"github.com/rivo/uniseg"

	"underlay/drills/board"
)

// plate is what a block shows: a layer, or a level of one.
type plate struct {
	layer string
	level int
	head  string
	held  map[board.Position]bool
	notes []note
}

// note tells what keys of one row do when they are held.
type note struct {
	row   int
	lines []string
}

// plates lists what is drawn: each layer; of a standard board also what Shift
// and AltGraph give, since legends are not stacked on a key.
func plates(b *board.Board, layers []string) []plate {
	if len(layers) == 0 {
		layers = b.Layers()
	}
	var out []plate
	for _, l := range layers {
		p := plate{layer: l, head: board.Safe(l), held: map[board.Position]bool{}}
		if words := b.EnterWords(l); words != "" {
			p.head += "   " + words
		}
		enters, _ := b.Enters(l)
		for _, k := range enters.Keys {
			p.held[k.Position] = true
		}
		p.notes = notesOf(b, l, p.held)
		out = append(out, p)
		out = append(out, levels(b, l)...)
	}
	return out
}

// levels are the plates for Shift and AltGraph of a layer written by standard
// keys.
func levels(b *board.Board, layer string) []plate {
	var out []plate
	for level, name := range map[int]string{1: "Shift", 2: "AltGraph"} {
		p := plate{layer: layer, level: level, head: board.Safe(layer) + " with " + name, held: map[board.Position]bool{}}
		differs := 0
		for _, k := range b.Keys() {
			l := b.LegendAt(layer, level, k.Position)
			if plain := b.Legend(layer, k.Position); k.Code != "" && l.Tap != plain.Tap && l.Tap != "" && l.Tap != strings.ToUpper(plain.Tap) {
				differs++
			}
			if b.Legend(layer, k.Position).Hold == name {
				p.held[k.Position] = true
			}
		}
		if differs > 3 {
			out = append(out, p)
		}
	}
	if len(out) == 2 && out[0].level > out[1].level {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// notesOf lists the keys of a layer that do something of their own when held.
func notesOf(b *board.Board, layer string, held map[board.Position]bool) []note {
	var out []note
	for _, k := range b.Keys() {
		l := b.Legend(layer, k.Position)
		if l.Hold == "" || l.Through || held[k.Position] || l.Tap == "" && (b.Kind == board.RowStaggered || board.Symbol(l.Hold).IsModifier()) {
			continue
		}
		name := keyName(b, k, l)
		if n := len(out); n == 0 || out[n-1].row != k.Position.Row {
			out = append(out, note{row: k.Position.Row})
		}
		last := &out[len(out)-1]
		last.lines = append(last.lines, name+": "+l.Hold)
	}
	return out
}

// keyName names a key in a note: by its legend, or by its thumb.
func keyName(b *board.Board, k board.Key, l board.Legend) string {
	switch {
	case k.Thumb > 0 && b.Kind != board.RowStaggered:
		return b.KeyWords(k.Position) + " held"
	case l.Tap != "":
		return l.Tap + " held"
	}
	return "held"
}

func noteWidth(p plate) float64 {
	longest := 0
	for _, n := range p.notes {
		for _, l := range n.lines {
			longest = max(longest, uniseg.StringWidth(l))
		}
	}
	if longest == 0 {
		return 0
	}
	return 0.4 + float64(longest)*noteUnits*0.85*letterWide
}

// noteBottom is how far the keys and the notes beside them reach down, in key
// units below the heading.
func noteBottom(b *board.Board, p plate, keysHigh float64) float64 {
	bottom := keysHigh
	for _, n := range spread(b, p) {
		bottom = max(bottom, n.top+float64(len(n.lines))*noteUnits)
	}
	return bottom
}

// placed is a note with the height at which it begins.
type placed struct {
	note
	top float64
}

// spread puts each note beside its row, and below the one before.
func spread(b *board.Board, p plate) []placed {
	var out []placed
	next := 0.0
	for _, n := range p.notes {
		top := next
		for _, k := range b.Keys() {
			if k.Position.Row == n.row {
				top = max(top, k.Y)
				break
			}
		}
		out = append(out, placed{n, top})
		next = top + float64(len(n.lines))*noteUnits + 0.1
	}
	return out
}

func combosOf(b *board.Board, layers []string) []string {
	var out []string
	for _, c := range b.Combos() {
		if c.Layer != "" && len(layers) > 0 && !strings.Contains(" "+strings.Join(layers, " ")+" ", " "+c.Layer+" ") {
			continue
		}
		var names []string
		for _, p := range c.Keys {
			names = append(names, b.KeyWords(p))
		}
		line := "together " + strings.Join(names, " + ") + ": " + c.Gives
		if c.Layer != "" {
			line += " (" + c.Layer + ")"
		}
		out = append(out, board.Safe(line))
	}
	return out
}
