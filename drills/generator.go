package drills

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"

	"underlay/corpus"
	"underlay/drills/board"
)

// Generator makes drills for one board and one mix of tables. The same seed
// gives the same drill. It may be used from several goroutines.
type Generator struct {
	board  *board.Board
	asks   map[board.Symbol]Ask // all that may be asked for
	unseen map[board.Symbol]Ask // keys that no computer sees
	mix    *corpus.Table
	shares map[board.Symbol]float64 // of what may be asked for, in the mix
	common []want                   // the same, in a fixed order

	classes   map[string]*texts     // symbols by their class in pairs
	pairs     map[string]*partners  // classes that stand beside a class
	lift      map[[2]string]float64 // how much oftener two classes stand together than by chance
	runs      texts                 // runs of marks
	with      map[board.Symbol]*texts
	forms     [][]slot        // of numbers
	inNumbers string          // all that may stand in one
	speech    func() speech   // made ready when first used
	motions   func() *motions // read when first used
}

// NewGenerator returns a Generator for a board and a mix. The weights of the
// mix say how many of the strokes are of which language.
func NewGenerator(b *board.Board, mix []corpus.Part, o Options) *Generator {
	g := &Generator{board: b, asks: asks(b, o), mix: corpus.Mix(mix...)}
	g.shares = map[board.Symbol]float64{}
	for s, n := range g.mix.Symbols() {
		if _, ok := g.asks[board.Symbol(s)]; ok {
			g.shares[board.Symbol(s)] = n
		}
	}
	g.common = g.plan(g.shares)
	g.addUnseen(o)
	g.addPairs()
	g.addRuns()
	g.addForms()
	g.motions = sync.OnceValue(embeddedMotions)
	g.speech = sync.OnceValue(g.readySpeech)
	return g
}

// asks lists what may be asked for on a board: what it drills, a
// terminal receives, and nothing keeps.
func asks(b *board.Board, o Options) map[board.Symbol]Ask {
	out := map[board.Symbol]Ask{}
	for _, s := range b.Symbols() {
		stroke, ok := b.Drilled(s)
		if ok && Received(s) && !slices.Contains(o.Keeps, s) {
			out[s] = Ask{Symbol: s, Stroke: stroke}
		}
	}
	return out
}

// Ask returns what a symbol is asked for with; false where it may not be.
func (g *Generator) Ask(s board.Symbol) (Ask, bool) {
	if a, ok := g.asks[s]; ok {
		return a, true
	}
	a, ok := g.unseen[s]
	return a, ok
}

// Generate makes one drill of a kind. The weights in wanted say which strokes
// it shall bring and in which proportion; with none, the mix decides. What may
// not be asked for is passed over. The error is ErrNothing where nothing is
// left, or where board and mix hold nothing of that kind.
func (g *Generator) Generate(k Kind, wanted map[board.Symbol]float64, seed uint64) (Drill, error) {
	rng := rand.New(rand.NewPCG(seed, uint64(len(k))<<8|uint64(k[0])))
	plan := g.plan(wanted)
	if k == Unseen {
		plan = among(wanted, g.unseen)
	}
	if len(plan) == 0 && len(wanted) > 0 {
		return Drill{}, fmt.Errorf("%s: %w: none of the symbols wanted can be asked for", k, ErrNothing)
	}
	d := g.draw(k, plan, rng)
	if len(d.Keys) == 0 {
		return Drill{}, fmt.Errorf("%s: %w", k, ErrNothing)
	}
	return d, nil
}

func (g *Generator) draw(k Kind, plan []want, rng *rand.Rand) Drill {
	switch k {
	case Position:
		return g.position(plan, rng)
	case Pair:
		return g.pair(plan, rng)
	case Token:
		return g.token(plan, rng)
	case Number:
		return g.number(plan, rng)
	case Shell:
		return g.shell(plan, rng)
	case Motion:
		return g.motion(plan, rng)
	case Chord:
		return g.keys(k, plan, chord, rng)
	case Navigation:
		return g.keys(k, plan, travels, rng)
	case Switch:
		return g.alternate(plan, rng)
	case Unseen:
		return g.unseenKeys(plan, rng)
	case Line, Probe:
		return g.line(k, plan, rng)
	}
	return Drill{} // own lines are read from files: see Own
}

// want is a symbol with its share of what is wanted.
type want struct {
	symbol board.Symbol
	share  float64
}

// plan returns what is wanted and may be asked for, in a fixed order, with
// shares that sum to 1.
func (g *Generator) plan(wanted map[board.Symbol]float64) []want { return among(wanted, g.asks) }

func among(wanted map[board.Symbol]float64, asks map[board.Symbol]Ask) []want {
	var out []want
	for s, w := range wanted {
		if _, ok := asks[s]; ok && w > 0 && w <= math.MaxFloat64 {
			out = append(out, want{s, w})
		}
	}
	return normal(out)
}

// normal puts a plan in its fixed order and makes its shares sum to 1.
func normal(plan []want) []want {
	slices.SortFunc(plan, func(a, b want) int { return cmp.Compare(a.symbol, b.symbol) })
	most, sum := 0.0, 0.0
	for _, w := range plan {
		most = max(most, w.share)
	}
	for i := range plan {
		plan[i].share /= most // so that the sum is finite
		sum += plan[i].share
	}
	for i := range plan {
		plan[i].share /= sum
	}
	return plan
}

// Pool makes up to n code-like lines of the mix, no two the same, for a
// scheduler to choose from.
func (g *Generator) Pool(n int, seed uint64) []Drill {
	pool, seen := make([]Drill, 0, n), map[string]bool{}
	for i := 0; i < 4*n && len(pool) < n; i++ {
		d, err := g.Generate(Line, nil, seed+uint64(i))
		if text := d.String(); err == nil && !seen[text] {
			pool, seen[text] = append(pool, d), true
		}
	}
	return pool
}
