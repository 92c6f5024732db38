package drills

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"unicode"

	"underlay/corpus"
	"underlay/drills/board"
)

// How much of what is wanted one drill brings.
const (
	singles = 20 // of single strokes
	grouped = 12 // of strokes in pairs, tokens and numbers, which bring others along
)

// position makes a drill of single strokes, kept apart.
func (g *Generator) position(plan []want, rng *rand.Rand) Drill {
	if len(plan) == 0 {
		plan = g.common
	}
	symbols := keepApart(apportion(plan, singles, rng), rng)
	return gaps(g.drill(Position, symbols, false), func(int) bool { return true })
}

// groups makes a drill of pieces with a gap before each.
func (g *Generator) groups(k Kind, pieces [][]board.Symbol) Drill {
	starts := map[int]bool{}
	n := 0
	for _, p := range pieces {
		starts[n] = true
		n += len(p)
	}
	return gaps(g.drill(k, slices.Concat(pieces...), false), func(i int) bool { return starts[i] })
}

// gaps sets the gaps of a drill: before each cell of which before tells so.
func gaps(d Drill, before func(i int) bool) Drill {
	for i := range d.Prompt {
		d.Prompt[i].Gap = i > 0 && before(i)
	}
	return d
}

// pair makes a drill of two strokes each that follow each other in the code.
func (g *Generator) pair(plan []want, rng *rand.Rand) Drill {
	if len(plan) == 0 {
		plan = g.marks()
	}
	return g.groups(Pair, around(plan, g.beside, rng))
}

// around returns a piece for each stroke of a plan that is still asked for.
func around(plan []want, piece func(board.Symbol, *demand, *rand.Rand) []board.Symbol, rng *rand.Rand) [][]board.Symbol {
	var pieces [][]board.Symbol
	d := newDemand(plan, grouped, rng)
	for s, ok := d.next(); ok; s, ok = d.next() {
		p := piece(s, d, rng)
		d.take(p)
		pieces = append(pieces, p)
	}
	return pieces
}

// beside returns s with a symbol that often stands before or after it; s alone
// where none is known or all are used up.
func (g *Generator) beside(s board.Symbol, d *demand, rng *rand.Rand) []board.Symbol {
	known := g.pairs[class(s)]
	if known == nil {
		return []board.Symbol{s}
	}
	for range 8 {
		i := known.draw(rng)
		other, ok := g.member(known.list[i], rng)
		piece := []board.Symbol{s, other}
		if known.before[i] {
			piece = []board.Symbol{other, s}
		}
		if ok && other != s && d.may(piece) {
			return piece
		}
	}
	return []board.Symbol{s}
}

// class is the class of a symbol in the keys of pairs: "a" and "A" for
// letters, "0" for digits; marks, space and line end stand for themselves.
func class(s board.Symbol) string {
	r, ok := s.Rune()
	switch {
	case !ok:
		return ""
	case unicode.IsLower(r):
		return "a"
	case unicode.IsUpper(r):
		return "A"
	case unicode.IsDigit(r):
		return "0"
	}
	return string(r)
}

// member draws a symbol of a class, by its share in the mix.
func (g *Generator) member(class string, rng *rand.Rand) (board.Symbol, bool) {
	c := g.classes[class]
	if c == nil {
		return "", false
	}
	return board.Symbol(c.list[c.draw(rng)]), true
}

// partners are the classes that stand beside one class.
type partners struct {
	texts
	before []bool // the partner stands before
}

func (g *Generator) addPairs() {
	g.classes = map[string]*texts{}
	for _, w := range g.common {
		addText(g.classes, class(w.symbol), string(w.symbol), w.share)
	}
	delete(g.classes, "")
	g.pairs = map[string]*partners{}
	g.addLift()
	for _, c := range g.mix.Counts(corpus.Pair).Top(-1) {
		if r := []rune(c.Key); len(r) == 2 {
			g.addPartner(string(r[0]), string(r[1]), c.N, false)
			g.addPartner(string(r[1]), string(r[0]), c.N, true)
		}
	}
}

// addLift compares each pair's count with what its two classes give by chance.
func (g *Generator) addLift() {
	counts := g.mix.Counts(corpus.Pair).Top(-1)
	first, second, total := map[string]float64{}, map[string]float64{}, 0.0
	for _, c := range counts {
		if r := []rune(c.Key); len(r) == 2 {
			first[string(r[0])] += c.N
			second[string(r[1])] += c.N
			total += c.N
		}
	}
	g.lift = map[[2]string]float64{}
	for _, c := range counts {
		if r := []rune(c.Key); len(r) == 2 {
			a, b := string(r[0]), string(r[1])
			g.lift[[2]string{a, b}] = c.N * total / (first[a] * second[b])
		}
	}
}

func (g *Generator) addPartner(of, partner string, n float64, before bool) {
	if g.classes[partner] == nil {
		return
	}
	if g.pairs[of] == nil {
		g.pairs[of] = &partners{}
	}
	p := g.pairs[of]
	p.list = append(p.list, partner)
	p.before = append(p.before, before)
	p.add(n)
}

// token makes a drill of runs of marks: operators and brackets.
func (g *Generator) token(plan []want, rng *rand.Rand) Drill {
	if len(plan) > 0 {
		return g.groups(Token, around(plan, g.runWith, rng))
	}
	var pieces [][]board.Symbol
	for range grouped {
		if i := g.runs.draw(rng); i >= 0 {
			pieces = append(pieces, symbolsOf(g.runs.list[i]))
		}
	}
	return g.groups(Token, pieces)
}

// runWith draws a run of marks that s is in; s alone where there is none.
func (g *Generator) runWith(s board.Symbol, d *demand, rng *rand.Rand) []board.Symbol {
	with := g.with[s]
	for range 8 {
		if with == nil {
			break
		}
		piece := symbolsOf(with.list[with.draw(rng)])
		if len(piece) > 1 && d.may(piece) {
			return piece
		}
	}
	return []board.Symbol{s}
}

func (g *Generator) addRuns() {
	g.with = map[board.Symbol]*texts{}
	for _, c := range g.mix.Counts(corpus.Run).Top(-1) {
		if !g.typed(c.Key) {
			continue
		}
		g.runs.list = append(g.runs.list, c.Key)
		g.runs.add(runWeight(c))
		for i, r := range c.Key {
			s := board.SymbolOf(r)
			if strings.IndexRune(c.Key, r) < i {
				continue
			}
			if g.with[s] == nil {
				g.with[s] = &texts{}
			}
			g.with[s].list = append(g.with[s].list, c.Key)
			g.with[s].add(c.N)
		}
	}
}

// runWeight is how often a run is drawn where nothing is wanted: common ones
// less than by their count, single marks less than tokens of several.
func runWeight(c corpus.Count) float64 {
	if len(c.Key) == 1 {
		return math.Sqrt(c.N) / 4
	}
	return math.Sqrt(c.N)
}

// marks returns the marks and digits of the mix with their shares: what
// drills of groups bring where nothing is wanted in particular.
func (g *Generator) marks() []want {
	out := map[board.Symbol]float64{}
	for _, w := range g.common {
		if r, ok := w.symbol.Rune(); ok && printable(w.symbol) && !unicode.IsLetter(r) {
			out[w.symbol] = w.share
		}
	}
	return g.plan(out)
}
