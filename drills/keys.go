package drills

import (
	"math/rand/v2"
	"slices"

	"underlay/drills/board"
)

// named is how many keys a drill of chords, of navigation or of unseen keys has.
const named = 10

// keys makes a drill of those of a plan that a kind is about; without a plan,
// of what the mix has of them, and at times of all that is worth a drill.
func (g *Generator) keys(k Kind, plan []want, about func(board.Symbol) bool, rng *rand.Rand) Drill {
	weights := map[board.Symbol]float64{}
	for _, w := range plan {
		if about(w.symbol) {
			weights[w.symbol] = w.share
		}
	}
	if len(plan) == 0 {
		for s := range g.asks {
			if about(s) && (g.shares[s] > 0 || everyday(s)) {
				weights[s] = g.shares[s] + 3e-5
			}
		}
	}
	symbols := keepApart(apportion(g.plan(weights), named, rng), rng)
	return gaps(g.drill(k, symbols, false), func(int) bool { return true })
}

// chord reports whether s is a chord with Control or Alt on a character.
func chord(s board.Symbol) bool {
	_, key, ok := s.Chord()
	return ok && printable(key)
}

// travels reports whether s moves about a text or is an F-key, with or
// without modifiers.
func travels(s board.Symbol) bool {
	if _, key, ok := s.Chord(); ok {
		s = key
	}
	return navigating(s)
}

// everyday reports whether a key is worth a place where nothing is known of
// its use: Control and Alt with a small letter, and keys without modifiers.
func everyday(s board.Symbol) bool {
	mods, key, ok := s.Chord()
	return !ok || len(mods) == 1 && len(key) == 1 && 'a' <= key[0] && key[0] <= 'z'
}

// alternate makes a drill that goes from layer to layer with every stroke.
func (g *Generator) alternate(plan []want, rng *rand.Rand) Drill {
	if len(plan) == 0 {
		plan = g.marks()
	}
	var out []board.Symbol
	for _, s := range keepApart(apportion(plan, grouped, rng), rng) {
		if len(out) > 0 && g.layer(out[len(out)-1]) == g.layer(s) {
			if other, ok := g.elsewhere(g.layer(s), rng); ok {
				out = append(out, other)
			}
		}
		out = append(out, s)
	}
	return gaps(g.drill(Switch, out, false), func(i int) bool { return i%2 == 0 })
}

func (g *Generator) layer(s board.Symbol) string { return g.asks[s].Stroke.Layer }

// elsewhere draws a symbol that is not on a layer: of the base layer if it can
// be, by its share in the mix.
func (g *Generator) elsewhere(layer string, rng *rand.Rand) (board.Symbol, bool) {
	var by sampler
	for _, w := range g.common {
		if g.layer(w.symbol) == layer || !printable(w.symbol) {
			by.add(0)
		} else {
			by.add(w.share)
		}
	}
	if i := by.draw(rng); i >= 0 {
		return g.common[i].symbol, true
	}
	return "", false
}

// addUnseen lists the keys that no computer sees and that can be drilled.
func (g *Generator) addUnseen(o Options) {
	g.unseen = map[board.Symbol]Ask{}
	for _, s := range g.board.Symbols() {
		answer, ok := UnseenAnswer(g.board, s)
		if ok && !slices.Contains(o.Keeps, s) && !slices.Contains(o.Keeps, answer) {
			stroke, _ := g.board.Drilled(s)
			g.unseen[s] = Ask{Symbol: s, Stroke: stroke, Answer: answer}
		}
	}
}

// UnseenAnswer returns what arrives when a key that no computer sees is pressed
// by its position on the base layer, without the hold. It is false for another
// symbol, for a key that is not to be pressed in vain, which a hold by habit
// would fire, and where the base layer has nothing visible there.
func UnseenAnswer(b *board.Board, s board.Symbol) (answer board.Symbol, ok bool) {
	stroke, ok := b.Drilled(s)
	if !ok || !s.Unseen() {
		return "", false
	}
	at := stroke.Final().Position
	if legend := b.Legend(stroke.Layer, at); !legend.Unseen || legend.Never {
		return "", false
	}
	answer, ok = b.Gives(b.Base(), at)
	return answer, ok && Received(answer)
}

// unseenKeys makes a drill of keys that no computer sees: the prompt names
// them, and their positions are pressed on the base layer, without the hold.
func (g *Generator) unseenKeys(plan []want, rng *rand.Rand) Drill {
	if len(plan) == 0 {
		for s := range g.unseen {
			plan = append(plan, want{s, 1})
		}
		plan = normal(plan)
	}
	d := Drill{Kind: Unseen, Notes: []string{"no program sees these: press their positions without the hold"}}
	for _, s := range keepApart(apportion(plan, named, rng), rng) {
		d.Keys = append(d.Keys, g.unseen[s])
		d.Prompt = append(d.Prompt, cell(s, false))
	}
	return gaps(d, func(int) bool { return true })
}
