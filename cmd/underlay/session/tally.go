package session

import (
	"cmp"
	"slices"

	"underlay/drills"
	"underlay/drills/board"
)

// tally counts strokes and slips.
type tally struct {
	strokes int
	slips   map[drills.SlipKind]map[board.Symbol]int
}

func (t *tally) add(tries []drills.Try) {
	for _, y := range tries {
		if y.Repair {
			continue
		}
		t.strokes++
		if !y.Wrong {
			continue
		}
		if t.slips == nil {
			t.slips = map[drills.SlipKind]map[board.Symbol]int{}
		}
		if t.slips[y.Slip.Kind] == nil {
			t.slips[y.Slip.Kind] = map[board.Symbol]int{}
		}
		t.slips[y.Slip.Kind][y.Ask.Symbol]++
	}
}

// counts returns the kinds of slip, the most frequent first.
func (t *tally) counts() []SlipCount {
	var out []SlipCount
	for kind, symbols := range t.slips {
		c := SlipCount{Kind: string(kind)}
		for s, n := range symbols {
			c.N += n
			if n > 1 {
				c.Symbols = append(c.Symbols, s)
			}
		}
		slices.SortFunc(c.Symbols, func(a, b board.Symbol) int {
			return cmp.Or(symbols[b]-symbols[a], cmp.Compare(a, b))
		})
		c.Symbols = c.Symbols[:min(3, len(c.Symbols))]
		out = append(out, c)
	}
	slices.SortFunc(out, func(a, b SlipCount) int {
		return cmp.Or(vague(a)-vague(b), b.N-a.N, cmp.Compare(a.Kind, b.Kind))
	})
	return out
}

// vague is 1 for slips of no kind, which come last.
func vague(c SlipCount) int {
	if c.Kind == string(drills.OtherSlip) {
		return 1
	}
	return 0
}
