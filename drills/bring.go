package drills

import (
	"math/rand/v2"
	"slices"
	"strings"

	"underlay/drills/board"
)

// This file makes lines that bring what is wanted, in its proportion.

// brought is how many strokes that are wanted one drill of lines aims at.
const brought = 10

// bringing draws a text that brings what a plan wants. Of many texts the one
// that comes nearest to a random part of the plan is taken; what it lacks is
// put into the body of a string, where there is one.
func (l *language) bringing(plan []want, rng *rand.Rand) told {
	aim := map[rune]int{}
	for _, w := range plan {
		if r, ok := w.symbol.Rune(); ok {
			aim[r] = 0
		}
	}
	for _, s := range apportion(paired(plan), brought, rng) {
		if r, ok := s.Rune(); ok {
			aim[r]++
		}
	}
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

// nearness is how near a text comes to an aim: what it has of it, less what
// it has too much. What is lacking counts half where it can be put in.
func nearness(t told, aim map[rune]int) float64 {
	near := 0.0
	for r, n := range aim {
		has := strings.Count(t.text, string(r))
		near += float64(min(has, n)) - .8*float64(max(has-n, 0))
		if has < n && len(t.bodies) > 0 && fitsBody(r) {
			near += .6 * float64(n-has)
		}
	}
	return near
}

// lacking lists the characters of an aim that a text has not.
func lacking(t told, aim map[rune]int) []rune {
	var out []rune
	for r, n := range aim {
		for range n - strings.Count(t.text, string(r)) {
			out = append(out, r)
		}
	}
	slices.Sort(out)
	return out
}

// fitsBody tells whether a character may stand in the body of any string.
func fitsBody(r rune) bool { return !strings.ContainsRune("\"'`\\\n", r) }

// with puts characters into the bodies of strings: brackets around the body's
// word, other marks behind it.
func (t told) with(more []rune, rng *rand.Rand) told {
	if len(t.bodies) == 0 {
		return t
	}
	rng.Shuffle(len(more), func(i, j int) { more[i], more[j] = more[j], more[i] })
	var open, shut, rest string
	for _, r := range more {
		i := strings.IndexRune(openers, r)
		switch {
		case !fitsBody(r) || strings.ContainsRune(closers, r) && !slices.Contains(more, rune(openers[strings.IndexRune(closers, r)])):
		case i >= 0:
			open, shut = open+openers[i:i+1], closers[i:i+1]+shut
		case strings.ContainsRune(closers, r):
		default:
			rest += string(r)
		}
	}
	at := t.bodies[rng.IntN(len(t.bodies))]
	return told{text: t.text[:at.from] + open + t.text[at.from:at.to] + shut + rest + t.text[at.to:]}
}
