package drills

import (
	"math/rand/v2"
	"strings"

	"underlay/drills/board"
)

// numberForms are the forms of numbers in code and at a prompt. A set in
// brackets stands for one of its characters; # is any digit, ~ any digit or
// one of a to f.
func numberForms() []string {
	return []string{
		"#", "[1-9]#", "[1-9]##", "[1-9]###", "#.#", "#.##", "[1-9]#.#", ".#", "-#", "-[1-9]#",
		"0x~~", "0x~~~~", "#~~#~", "0b[01][01][01][01]", "0[0-7][0-7][0-7]", "#e-#", "#.#e[1-9]", "[1-9]_###", "[1-9]##_###",
		"20[0-3]#-0[1-9]-1#", "20[0-3]#-1[0-2]-2[0-8]", "0[1-9]/2[0-9]", "[01]#:[0-5]#", "2[0-3]:[0-5]#:[0-5]#",
		"10.#.#.1#", "192.0.2.[1-9]#", "1##.[1-9]#.#.#", "fe80::#~~", "2001:db8::~", "127.0.0.1", "/24", ":80#[0-9]", ":#[1-9]##",
		"v#.#.#", "#.[1-9]#.#", "#.#.#-#", "[1-9]#%", "+#", "#*#", "#+#", "[1-9]<<#", "#,#", "[#]", "(#)", "$#", "#:#", "~[~]=#",
	}
}

// slot is one place of a number: the characters that may stand there.
type slot string

// slots takes a form apart.
func slots(form string) []slot {
	var out []slot
	for i := 0; i < len(form); i++ {
		end := strings.IndexByte(form[i:], ']')
		switch {
		case form[i] == '[' && end > 1 && strings.IndexByte("0123456789", form[i+1]) >= 0:
			out = append(out, slot(expand(form[i+1:i+end])))
			i += end
		case form[i] == '#':
			out = append(out, "0123456789")
		case form[i] == '~':
			out = append(out, "0123456789abcdef")
		default:
			out = append(out, slot(form[i:i+1]))
		}
	}
	return out
}

// expand writes a set out: "0-3" is "0123".
func expand(set string) string {
	if len(set) != 3 || set[1] != '-' {
		return set
	}
	var b strings.Builder
	for c := set[0]; c <= set[2]; c++ {
		b.WriteByte(c)
	}
	return b.String()
}

// number makes a drill of numbers. Without a plan the digits come as often as
// in the mix.
func (g *Generator) number(plan []want, rng *rand.Rand) Drill {
	plan = g.numeric(plan)
	d := newDemand(plan, grouped, rng)
	var pieces [][]board.Symbol
	for s, ok := d.next(); ok; s, ok = d.next() {
		piece := g.numberWith(s, d, rng)
		d.take(piece)
		pieces = append(pieces, piece)
	}
	return g.groups(Number, pieces)
}

// numeric returns what of a plan occurs in numbers; of no plan, the digits.
func (g *Generator) numeric(plan []want) []want {
	out := map[board.Symbol]float64{}
	from, in := plan, g.inNumbers
	if len(plan) == 0 {
		from, in = g.common, "0123456789"
	}
	for _, w := range from {
		if len(w.symbol) == 1 && strings.Contains(in, string(w.symbol)) {
			out[w.symbol] = w.share
		}
	}
	return g.plan(out)
}

// numberWith makes a number that s is in; s alone where that cannot be had.
func (g *Generator) numberWith(s board.Symbol, d *demand, rng *rand.Rand) []board.Symbol {
	for range 40 {
		form := g.forms[rng.IntN(len(g.forms))]
		var at []int // where s may stand
		for i, may := range form {
			if strings.Contains(string(may), string(s)) {
				at = append(at, i)
			}
		}
		if len(at) == 0 {
			continue
		}
		if piece, ok := g.fillForm(form, at[rng.IntN(len(at))], s, d, rng); ok {
			return piece
		}
	}
	return []board.Symbol{s}
}

// fillForm fills the slots of a form, s in the slot of index at, the others
// with what has still to come, or with what nobody asked for.
func (g *Generator) fillForm(form []slot, at int, s board.Symbol, d *demand, rng *rand.Rand) ([]board.Symbol, bool) {
	piece := make([]board.Symbol, len(form))
	left := func(c board.Symbol) int {
		n := d.left[c]
		for _, p := range piece {
			if p == c {
				n--
			}
		}
		return n
	}
	piece[at] = s
	for i, may := range form {
		if i == at {
			continue
		}
		var by sampler
		for _, c := range may {
			by.add(g.slotWeight(board.Symbol(c), d, left))
		}
		k := by.draw(rng)
		if k < 0 {
			return nil, false
		}
		piece[i] = board.Symbol(may[k : k+1])
	}
	return piece, d.may(piece)
}

// slotWeight is how readily a character fills a slot.
func (g *Generator) slotWeight(c board.Symbol, d *demand, left func(board.Symbol) int) float64 {
	switch {
	case !g.typed(string(c)):
		return 0
	case d.wants(c):
		return 100 * float64(max(left(c), 0))
	}
	return 1
}

// addForms keeps the forms of numbers that can be typed.
func (g *Generator) addForms() {
	var used strings.Builder
	for _, f := range numberForms() {
		s := slots(f)
		if g.canFill(s) {
			g.forms = append(g.forms, s)
			for _, may := range s {
				used.WriteString(string(may))
			}
		}
	}
	g.inNumbers = used.String()
}

func (g *Generator) canFill(form []slot) bool {
	for _, may := range form {
		if !strings.ContainsFunc(string(may), func(r rune) bool { return g.typed(string(r)) }) {
			return false
		}
	}
	return true
}
