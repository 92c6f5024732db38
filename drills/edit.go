package drills

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"underlay/drills/board"
)

// edit is one editor command to type, what it does, and equal forms.
type edit struct {
	keys  []board.Symbol
	does  string
	equal [][]board.Symbol
}

// edits is how many commands one drill has.
const edits = 3

// motion makes a drill of editor commands.
func (g *Generator) motion(plan []want, rng *rand.Rand) Drill {
	var all []edit
	used := map[board.Symbol]bool{}
	for range edits {
		best, fit := edit{}, -1.0
		for range candidates {
			e := g.edit(plan, rng)
			if f := fitsEdit(e, plan, used); g.canType(e.keys) && f > fit && !repeats(all, e) {
				best, fit = e, f
			}
			if len(plan) == 0 && fit >= 0 {
				break
			}
		}
		if fit < 0 {
			continue
		}
		all = append(all, best)
		for _, s := range best.keys {
			used[s] = true
		}
	}
	return g.editDrill(all)
}

func repeats(all []edit, e edit) bool {
	return slices.ContainsFunc(all, func(o edit) bool { return o.does == e.does })
}

// fitsEdit is how much of the plan a command brings that was not there yet.
func fitsEdit(e edit, plan []want, used map[board.Symbol]bool) float64 {
	fit := 0.0
	for _, w := range plan {
		if slices.Contains(e.keys, w.symbol) {
			if used[w.symbol] {
				fit += w.share / 4
			} else {
				fit += w.share
			}
		}
	}
	return fit
}

func (g *Generator) canType(symbols []board.Symbol) bool {
	for _, s := range symbols {
		if _, ok := g.asks[s]; !ok {
			return false
		}
	}
	return len(symbols) > 0
}

// editDrill puts commands together, with a gap between them.
func (g *Generator) editDrill(all []edit) Drill {
	var pieces [][]board.Symbol
	var notes []string
	var also []Form
	at := 0
	for _, e := range all {
		for _, other := range e.equal {
			if g.canType(other) {
				d := g.drill(Motion, other, false)
				also = append(also, Form{At: at, Len: len(e.keys), Prompt: gaps(d, func(int) bool { return false }).Prompt, Keys: d.Keys})
			}
		}
		at += len(e.keys)
		pieces = append(pieces, e.keys)
		notes = append(notes, e.does)
	}
	d := g.groups(Motion, pieces)
	for i := range also {
		also[i].Prompt[0].Gap = also[i].At > 0
	}
	d.Also, d.Notes = also, notes
	return d
}

// edit draws a motion, an operator with a motion, or another command.
func (g *Generator) edit(plan []want, rng *rand.Rand) edit {
	switch n := rng.IntN(10); {
	case n < 3:
		return g.moves(plan, rng)
	case n < 7:
		return g.operates(plan, rng)
	}
	return g.commands(plan, rng)
}

func (g *Generator) moves(plan []want, rng *rand.Rand) edit {
	i := g.motions().by[0].draw(rng)
	if i < 0 {
		return edit{}
	}
	m := g.motions().Motion[i]
	text := m.Goes
	var e edit
	if m.GoesMany != "" && (text == "" || rng.IntN(4) == 0) {
		n := count(m, rng)
		text = strings.ReplaceAll(m.GoesMany, "{n}", n)
		e.keys = symbolsOf(n)
	}
	e.keys = append(e.keys, m.Keys...)
	e.does = g.takes(&e, m.Takes, text, plan, rng)
	return e
}

// count draws a count: small ones, and for columns and lines larger ones too.
func count(m movement, rng *rand.Rand) string {
	if s := m.Keys[0]; s == "|" || s == "G" {
		return strconv.Itoa(2 + rng.IntN(97))
	}
	return strconv.Itoa(2 + rng.IntN(4))
}

func (g *Generator) operates(plan []want, rng *rand.Rand) edit {
	i := g.motions().by[1].draw(rng)
	if i < 0 {
		return edit{}
	}
	op := g.motions().Operator[i]
	if rng.IntN(5) == 0 {
		return g.finish(op, doubled(op, rng), plan, rng)
	}
	for range 20 {
		m := g.motions().Motion[g.motions().by[0].draw(rng)]
		if m.Over == "" && m.OverMany == "" || op.Lines && !m.Lines {
			continue
		}
		return g.finish(op, g.reaches(op, m, plan, rng), plan, rng)
	}
	return edit{}
}

// doubled is an operator on whole lines.
func doubled(op operator, rng *rand.Rand) edit {
	e := edit{keys: slices.Concat(op.Keys, op.Keys), does: op.Does + " the line"}
	line := slices.Concat(op.Keys, keys{"_"})
	n := ""
	if rng.IntN(3) == 0 {
		n = strconv.Itoa(2 + rng.IntN(4))
		e.does = fmt.Sprintf("%s %s lines", op.Does, n)
	}
	e.equal = append(e.equal, slices.Concat(symbolsOf(n), line), slices.Concat(op.Keys, symbolsOf(n), op.Keys))
	if short, ok := map[board.Symbol]board.Symbol{"c": "S", "y": "Y"}[op.Keys[0]]; ok {
		e.equal = append(e.equal, append(symbolsOf(n), short))
	}
	e.keys = slices.Concat(symbolsOf(n), e.keys)
	e.equal = slices.DeleteFunc(e.equal, func(k []board.Symbol) bool { return slices.Equal(k, e.keys) })
	return e
}

// reaches is an operator with a motion. A count may stand before either.
func (g *Generator) reaches(op operator, m movement, plan []want, rng *rand.Rand) edit {
	var e edit
	text, n := m.Over, ""
	if m.OverMany != "" && (text == "" || rng.IntN(3) == 0) {
		n = count(m, rng)
		text = strings.ReplaceAll(m.OverMany, "{n}", n)
	}
	e.keys = slices.Concat(op.Keys, symbolsOf(n), m.Keys)
	e.does = op.Does + " " + g.takes(&e, m.Takes, text, plan, rng)
	if n != "" {
		first := slices.Concat(symbolsOf(n), op.Keys, e.keys[len(op.Keys)+len(n):])
		e.equal = append(e.equal, first)
	}
	if short, ok := map[string]board.Symbol{"c$": "C", "d$": "D"}[string(op.Keys[0]+m.Keys[0])]; ok && n == "" {
		e.equal = append(e.equal, []board.Symbol{short})
	}
	return e
}

// finish adds what has to follow an operator and its motion.
func (g *Generator) finish(op operator, e edit, plan []want, rng *rand.Rand) edit {
	tail := []board.Symbol(op.Filter)
	if op.Text {
		tail = append(symbolsOf(g.text(rng)), board.Escape)
	}
	e.keys = append(slices.Clip(e.keys), tail...)
	for i := range e.equal {
		e.equal[i] = append(slices.Clip(e.equal[i]), tail...)
	}
	return e
}

func (g *Generator) commands(plan []want, rng *rand.Rand) edit {
	i := g.motions().by[2].draw(rng)
	if i < 0 {
		return edit{}
	}
	c := g.motions().Command[i]
	e := edit{keys: slices.Clone([]board.Symbol(c.Keys))}
	text := c.Does
	if c.Many != "" && rng.IntN(3) == 0 {
		n := strconv.Itoa(2 + rng.IntN(4))
		text = strings.ReplaceAll(c.Many, "{n}", n)
		e.keys = slices.Concat(symbolsOf(n), c.Keys)
	}
	before := len(e.keys)
	e.does = g.takes(&e, c.Takes, text, plan, rng)
	for _, k := range c.Equal {
		e.equal = append(e.equal, slices.Concat(k, e.keys[before:]))
	}
	return e
}

// takes adds what a command takes, and returns its text with that put in.
func (g *Generator) takes(e *edit, what, text string, plan []want, rng *rand.Rand) string {
	switch what {
	case "character":
		c := g.target(plan, rng)
		e.keys = append(e.keys, c)
		return strings.ReplaceAll(text, "{c}", KeyName(c))
	case "mark":
		c := board.Symbol('a' + rune(rng.IntN(3)))
		e.keys = append(e.keys, c)
		return strings.ReplaceAll(text, "{c}", string(c))
	case "word":
		w := g.text(rng)
		e.keys = append(append(e.keys, symbolsOf(w)...), board.Enter)
		return strings.ReplaceAll(text, "{w}", w)
	case "text":
		e.keys = append(append(e.keys, symbolsOf(g.text(rng))...), board.Escape)
	}
	return text
}

// target draws a character to look for: one that is wanted, or one at which
// code is cut.
func (g *Generator) target(plan []want, rng *rand.Rand) board.Symbol {
	var by sampler
	for _, w := range plan {
		if printable(w.symbol) {
			by.add(w.share)
		} else {
			by.add(0)
		}
	}
	if i := by.draw(rng); i >= 0 && rng.IntN(3) > 0 {
		return plan[i].symbol
	}
	const usual = `)(,.;:"'=]}_`
	return board.Symbol(usual[rng.IntN(len(usual))])
}
