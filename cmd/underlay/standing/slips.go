package standing

import (
	"cmp"
	"slices"

	"underlay/drills"
	"underlay/drills/board"
)

const (
	slipsKept   = 300 // the latest ones: what is told is about now
	slipsNeeded = 30  // before shares of kinds mean something
)

// slip is one slip: a stroke, and the kind as an index of drills.SlipKinds.
type slip struct {
	ID   int
	Kind uint8
}

// slipCount keeps the latest slips on the board being learned, as a ring.
type slipCount struct {
	Total int
	Ring  []slip
}

func (c *slipCount) add(id int, kind string) {
	kinds := drills.SlipKinds()
	i := slices.Index(kinds, drills.SlipKind(kind))
	if i < 0 {
		i = slices.Index(kinds, drills.OtherSlip)
	}
	s := slip{id, uint8(i)}
	if len(c.Ring) < slipsKept {
		c.Ring = append(c.Ring, s)
	} else {
		c.Ring[c.Total%slipsKept] = s
	}
	c.Total++
}

// slips returns the slips as they are told.
func (c *slipCount) slips(in Input) Slips {
	out := Slips{Total: c.Total, Latest: len(c.Ring), Needs: max(0, slipsNeeded-len(c.Ring))}
	for i, kind := range drills.SlipKinds() {
		bySymbol := map[board.Symbol]int{}
		n := 0
		for _, s := range c.Ring {
			if int(s.Kind) == i {
				n++
				if s.ID < len(in.Strokes) {
					bySymbol[in.Strokes[s.ID].Symbol]++
				}
			}
		}
		if n > 0 {
			out.Kinds = append(out.Kinds, SlipCount{Kind: string(kind), Count: n, Share: wilson(n, len(c.Ring), z80), Most: most(bySymbol, 3)})
		}
	}
	slices.SortStableFunc(out.Kinds, func(a, b SlipCount) int { return cmp.Compare(b.Count, a.Count) })
	return out
}

// most returns the n symbols with the highest counts, equal ones by name.
func most(counts map[board.Symbol]int, n int) []board.Symbol {
	var all []board.Symbol
	for s := range counts {
		all = append(all, s)
	}
	slices.SortFunc(all, func(a, b board.Symbol) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), cmp.Compare(a, b))
	})
	return all[:min(n, len(all))]
}
