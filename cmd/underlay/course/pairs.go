package course

import (
	"slices"

	"underlay/scheduler"
)

// AllFeatures returns what the scheduler knows of all strokes, by id.
func (c *Course) AllFeatures() []scheduler.Stroke { return slices.Clone(c.strokes.features) }

// Pairs returns, for both boards, the share of each pair of strokes in lines of
// the mix: ids in the order in which they are typed.
func (c *Course) Pairs() map[[2]int]float64 {
	out := map[[2]int]float64{}
	for b := range c.config.Boards {
		counts, total := map[[2]int]float64{}, 0.0
		for _, d := range c.generator(0).Pool(linesForPairs, c.config.Seed+1) {
			prev := -1
			for _, k := range d.Keys {
				id, ok := c.ID(b, k.Symbol)
				if ok && prev >= 0 {
					counts[[2]int{prev, id}]++
					total++
				}
				if prev = id; !ok {
					prev = -1
				}
			}
		}
		for p, n := range counts {
			out[p] = n / total
		}
	}
	return out
}

// linesForPairs is how many lines the pairs are counted in.
const linesForPairs = 1500
