package drills

import (
	"math/rand/v2"
	"slices"
	"strings"

	"underlay/drills/board"
)

// This file makes lines that bring what is wanted, in its proportion.

// brought is how many strokes that are wanted one drill of lines aims at.
const brought = 12

// bringing draws a text that brings what a plan wants. Of many texts the one
// that comes nearest to a random part of the plan is taken; what it lacks is
// put into the body of a string, where there is one.
func (l *language) bringing(plan []want, rng *rand.Rand) told {
	aim := l.aim(plan, rng)
	var best told
	fit := 0.0
	for i := range candidates {
		t := l.blockFrom(l.seed(i, rng), rng)
		if f := nearness(t, aim); i == 0 || f > fit {
			best, fit = t, f
		}
	}
	return best.with(lacking(best, aim), rng)
}

// aimed is a character with how often a drill aims at bringing it.
type aimed struct {
	r rune
	n int
}

// aim draws a part of a plan for one drill, in the plan's order.
func (l *language) aim(plan []want, rng *rand.Rand) []aimed {
	count := map[board.Symbol]int{}
	for _, s := range apportion(l.stressed(paired(plan)), brought, rng) {
		count[s]++
	}
	var out []aimed
	for _, w := range plan {
		if r, ok := w.symbol.Rune(); ok {
			out = append(out, aimed{r, count[w.symbol]})
		}
	}
	return out
}

// seed draws the line that candidate i begins with. Every third has a string,
// whose body can take what a line of the language brings seldom.
func (l *language) seed(i int, rng *rand.Rand) shape {
	if i%3 == 2 {
		if k := l.quoting.draw(rng); k >= 0 {
			return l.shapes[k]
		}
	}
	return l.first(rng)
}

// paired gives both brackets of a pair the same share.
func paired(plan []want) []want {
	out := slices.Clone(plan)
	at := map[board.Symbol]int{}
	for i, w := range out {
		at[w.symbol] = i
	}
	for k := range openers {
		i, ok1 := at[board.Symbol(openers[k:k+1])]
		j, ok2 := at[board.Symbol(closers[k:k+1])]
		if ok1 && ok2 {
			mean := (out[i].share + out[j].share) / 2
			out[i].share, out[j].share = mean, mean
		}
	}
	return out
}

// stressed gives more of the aim to what the lines of the language bring less
// often by themselves than is wanted, since the rest comes too often.
func (l *language) stressed(plan []want) []want {
	const stress = .1
	out := slices.Clone(plan)
	for i, w := range out {
		r, _ := w.symbol.Rune()
		itself := l.usually[r] / (w.share * brought)
		out[i].share *= 1 + stress*(1-min(itself, 1))
	}
	return normal(out)
}

// nearness is how near a text comes to an aim: what it has of it, less what
// it has too much. What is lacking counts half where it can be put in.
func nearness(t told, aim []aimed) float64 {
	near := 0.0
	for _, a := range aim {
		has := strings.Count(t.text, string(a.r))
		near += float64(min(has, a.n)) - .8*float64(max(has-a.n, 0))
		if has < a.n && len(t.bodies) > 0 && fitsBody(a.r) {
			near += .6 * float64(a.n-has)
		}
	}
	return near
}

// lacking lists the characters of an aim that a text has not.
func lacking(t told, aim []aimed) []rune {
	var out []rune
	for _, a := range aim {
		for range a.n - strings.Count(t.text, string(a.r)) {
			out = append(out, a.r)
		}
	}
	return out
}

// fitsBody tells whether a character may stand in the body of any string.
func fitsBody(r rune) bool { return !strings.ContainsRune("\"'`\\\n", r) }

// with puts characters into the body of a string: pairs of brackets, and
// quotes other than the string's own, around its word, other marks behind it.
func (t told) with(more []rune, rng *rand.Rand) told {
	if len(t.bodies) == 0 || len(more) == 0 {
		return t
	}
	at := t.bodies[rng.IntN(len(t.bodies))]
	own := t.text[max(at.from-1, 0):at.from]
	open, shut, rest := "", "", ""
	around := func(o, c string) { open, shut = open+o, c+shut }
	for i := range openers {
		o, c := openers[i:i+1], closers[i:i+1]
		for range max(strings.Count(string(more), o), strings.Count(string(more), c)) {
			around(o, c)
		}
	}
	rng.Shuffle(len(more), func(i, j int) { more[i], more[j] = more[j], more[i] })
	for i, r := range more {
		switch c := string(r); {
		case isOpener(c) || isCloser(c):
		case isQuote(c) && c != own && slices.Index(more, r) == i:
			for range (strings.Count(string(more), c) + rng.IntN(2)) / 2 {
				around(c, c)
			}
		case fitsBody(r):
			rest += c
		}
	}
	return told{text: t.text[:at.from] + open + t.text[at.from:at.to] + shut + rest + t.text[at.to:]}
}
