package drills

import (
	"strings"

	"underlay/drills/board"
)

// cell shows a symbol. In running text a Space is a blank; elsewhere it needs
// a sign, U+2423 OPEN BOX.
func cell(s board.Symbol, running bool) Cell {
	switch {
	case s == board.Space && running:
		return Cell{Text: " "}
	case printable(s):
		return Cell{Text: string(s)}
	}
	return Cell{Text: KeyName(s), Named: true}
}

// KeyName is the short name of a key or chord that adds no mark to a text, as
// a prompt shows it: "Esc", "Ctrl+w", "PgUp". A character is its own name.
func KeyName(s board.Symbol) string {
	if printable(s) {
		return string(s)
	}
	if mods, key, ok := s.Chord(); ok {
		var b strings.Builder
		for _, m := range mods {
			b.WriteString(shortName(m) + "+")
		}
		return b.String() + KeyName(key)
	}
	return shortName(s)
}

func shortName(s board.Symbol) string {
	switch s {
	case board.Space:
		return "␣"
	case board.Enter:
		return "⏎"
	case board.Escape:
		return "Esc"
	case board.Backspace:
		return "Bksp"
	case board.Delete:
		return "Del"
	case board.Insert:
		return "Ins"
	case board.PageUp:
		return "PgUp"
	case board.PageDown:
		return "PgDn"
	case board.ArrowLeft:
		return "←"
	case board.ArrowDown:
		return "↓"
	case board.ArrowUp:
		return "↑"
	case board.ArrowRight:
		return "→"
	case board.Control:
		return "Ctrl"
	case board.AltGraph:
		return "AltGr"
	}
	return strings.Trim(string(s), "<>") // "<pair-1>"; a lone "<" never comes here
}

// drill makes a drill of symbols, a cell each and no gaps. What may not be
// asked for is left out.
func (g *Generator) drill(k Kind, symbols []board.Symbol, running bool) Drill {
	d := Drill{Kind: k, Prompt: make([]Cell, 0, len(symbols)), Keys: make([]Ask, 0, len(symbols))}
	for _, s := range symbols {
		if a, ok := g.Ask(s); ok {
			c := cell(s, running)
			c.Break = running && len(d.Keys) > 0 && d.Keys[len(d.Keys)-1].Symbol == board.Enter
			d.Keys, d.Prompt = append(d.Keys, a), append(d.Prompt, c)
		}
	}
	return d
}

// longest is the greatest number of strokes of a group, for reading.
const longest = 5

// Render turns exactly these symbols, in this order, into a drill. Lines are
// shown as lines; other sequences get gaps, so that what stands together in
// code stands together, and each named key alone. What may not be asked for is
// left out.
func (g *Generator) Render(k Kind, symbols []board.Symbol) Drill {
	if k == Line || k == OwnLine || k == Probe {
		return g.drill(k, symbols, true)
	}
	d := g.drill(k, symbols, false)
	start := 0
	return gaps(d, func(i int) bool {
		apart := i-start >= longest || !g.together(d.Keys[i-1].Symbol, d.Keys[i].Symbol)
		if apart {
			start = i
		}
		return apart
	})
}

// together reports whether two symbols follow each other oftener than by
// chance in the code of the mix.
func (g *Generator) together(a, b board.Symbol) bool {
	return g.lift[[2]string{class(a), class(b)}] > 1
}
