package drills

import (
	"math/rand/v2"
	"slices"
	"sort"

	"underlay/drills/board"
)

// sampler draws indices by weight.
type sampler struct{ cumulated []float64 }

func (s *sampler) add(weight float64) {
	s.cumulated = append(s.cumulated, s.total()+weight)
}

func (s *sampler) total() float64 {
	if len(s.cumulated) == 0 {
		return 0
	}
	return s.cumulated[len(s.cumulated)-1]
}

// draw returns an index; -1 where there is nothing to draw.
func (s *sampler) draw(rng *rand.Rand) int {
	if s.total() <= 0 {
		return -1
	}
	at := rng.Float64() * s.total()
	return sort.Search(len(s.cumulated)-1, func(i int) bool { return s.cumulated[i] > at })
}

// apportion draws n symbols by systematic sampling: each comes its share
// times n, rounded up or down by chance, so that the shares are met exactly
// over many drills and nearly in each one.
func apportion(plan []want, n int, rng *rand.Rand) []board.Symbol {
	out := make([]board.Symbol, 0, n)
	order := rng.Perm(len(plan))
	at, sum := rng.Float64(), 0.0
	for _, i := range order {
		sum += plan[i].share * float64(n)
		for at < sum && len(out) < n {
			out = append(out, plan[i].symbol)
			at++
		}
	}
	return out
}

// keepApart orders the symbols by chance, so that equal ones do not follow
// each other where that can be had.
func keepApart(symbols []board.Symbol, rng *rand.Rand) []board.Symbol {
	left := map[board.Symbol]int{}
	var kinds []board.Symbol
	for _, s := range symbols {
		if left[s]++; left[s] == 1 {
			kinds = append(kinds, s)
		}
	}
	slices.Sort(kinds)
	out := make([]board.Symbol, 0, len(symbols))
	for len(out) < len(symbols) {
		out = append(out, nextApart(kinds, left, out, len(symbols)-len(out), rng))
	}
	return out
}

// nextApart draws the next symbol by how many of each are left. One that
// makes up half of the rest has to come now.
func nextApart(kinds []board.Symbol, left map[board.Symbol]int, out []board.Symbol, rest int, rng *rand.Rand) board.Symbol {
	var last board.Symbol
	if len(out) > 0 {
		last = out[len(out)-1]
	}
	var may sampler
	for _, s := range kinds {
		weight := float64(left[s])
		switch {
		case s == last:
			weight *= 1e-9
		case 2*left[s] > rest:
			weight *= 1e9
		}
		may.add(weight)
	}
	s := kinds[may.draw(rng)]
	left[s]--
	return s
}
