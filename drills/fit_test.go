package drills

import (
	"math"
	"testing"

	"underlay/drills/board"
)

// divergence is the Jensen-Shannon divergence of two distributions in bits.
// Source: Lin, Divergence measures based on the Shannon entropy, IEEE
// Transactions on Information Theory 37(1), 1991.
func divergence(p, q map[board.Symbol]float64) float64 {
	sum := func(m map[board.Symbol]float64) float64 {
		n := 0.0
		for _, x := range m {
			n += x
		}
		return n
	}
	ps, qs := sum(p), sum(q)
	half := func(a, b map[board.Symbol]float64, as, bs float64) float64 {
		d := 0.0
		for s, x := range a {
			if x > 0 {
				d += x / as * math.Log2(2*(x/as)/(x/as+b[s]/bs))
			}
		}
		return d / 2
	}
	return half(p, q, ps, qs) + half(q, p, qs, ps)
}

func TestLineFit(t *testing.T) {
	g := generator(t, "ansi-61", "go")
	got := map[board.Symbol]float64{}
	for seed := range uint64(4000) {
		d, _ := g.Generate(Line, nil, seed)
		for _, k := range d.Keys {
			got[k.Symbol]++
		}
	}
	t.Log(divergence(got, g.shares))
	var n, m float64
	for s := range g.shares {
		n += got[s]
		m += g.shares[s]
	}
	for _, w := range g.common {
		if r := got[w.symbol] / n / (g.shares[w.symbol] / m); w.share > .002 {
			t.Logf("%s %.4f ratio %.2f", w.symbol, w.share, r)
		}
	}
}
