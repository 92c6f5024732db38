package standing

// neighbours are the strokes that come before and after a stroke in the work.
type neighbours struct{ before, after []neighbour }

type neighbour struct {
	id    int
	times float64 // in 1,000 characters
}

// follow is what the stroke before costs, as shares of the latency.
type follow struct{ otherLayer, sameFinger float64 }

// cost is what it costs to type a stroke after another one.
func (f follow) cost(first, then placed) float64 {
	cost := 0.0
	if first.place != then.place {
		cost += f.otherLayer
	}
	if first.finger == then.finger && first.position != then.position {
		cost += f.sameFinger
	}
	return cost
}

// neighboursOf sorts what follows what by stroke, of n strokes.
func neighboursOf(all []Follow, n int) []neighbours {
	out := make([]neighbours, n)
	for _, f := range all {
		times := 1000 * f.Share
		out[f.Then].before = append(out[f.Then].before, neighbour{f.First, times})
		out[f.First].after = append(out[f.First].after, neighbour{f.Then, times})
	}
	return out
}
