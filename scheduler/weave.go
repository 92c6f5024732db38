package scheduler

import "math/rand/v2"

const (
	mostAlike = 3      // picks of one stroke for an exercise
	fragments = 10     // places that are looked at for each pick
	restMS    = 1500.0 // between two exercises
)

// pick chooses up to count strokes by worth, one at a time; each choice
// lowers the worth of the next of its kind. The picks are counted as planned.
func (s *Scheduler) pick(count int, now float64, may func(id int) bool) []int {
	planned := s.sitting.planned
	clear(planned)
	rate := s.sitting.scratch
	copy(rate, s.sitting.worth.rate)
	for id := range rate {
		if rate[id] > 0 && !may(id) {
			rate[id] = 0
		}
	}
	var out []int
	for last := -1; len(out) < count; {
		best := s.dearest(rate, last, now)
		if best < 0 {
			break
		}
		n := s.Items[best].Tries + s.Items[best].Credit + s.policy.settled + planned[best]
		rate[best] *= n / (n + 1)
		if planned[best]++; planned[best] >= mostAlike {
			rate[best] = 0
		}
		out = append(out, best)
		last = best
	}
	return out
}

// dearest is the stroke that is worth most now and is not the last one.
func (s *Scheduler) dearest(rate []float64, last int, now float64) int {
	best, top := -1, 0.0
	for id, r := range rate {
		if r <= top || id == last {
			continue
		}
		if v := r * s.spaced(id, s.sitting.planned[id], now); v > top {
			best, top = id, v
		}
	}
	return best
}

// weave sets each picked stroke between the neighbours that it has somewhere in
// the user's code, where the three are worth most; what stands nowhere stands
// alone. Switches make a place dearer by their share times switching.
func (s *Scheduler) weave(picks []int, now, switching float64) []int {
	spread(picks, s.sitting.rng)
	out := make([]int, 0, 3*len(picks))
	for _, id := range picks {
		out = append(out, s.fragment(id, now, switching)...)
	}
	return out
}

func (s *Scheduler) fragment(id int, now, switching float64) []int {
	spots := s.pool.spots[id]
	if len(spots) == 0 {
		return []int{id}
	}
	var best []int
	top := -1.0
	for range min(fragments, len(spots)) {
		sp := spots[s.sitting.rng.IntN(len(spots))]
		line, at := s.pool.lines[sp.line], int(sp.at)
		frag := line[max(0, at-1):min(len(line), at+2)]
		v, _ := s.gain(frag, 0, now)
		if v *= 1 + switching*s.switches(frag); v > top {
			best, top = frag, v
		}
	}
	for _, k := range best {
		if k != id {
			s.sitting.planned[k]++
		}
	}
	return best
}

// switches counts the changes of layer in a sequence.
func (s *Scheduler) switches(ids []int) (n float64) {
	for k := 1; k < len(ids); k++ {
		if s.strokes[ids[k]].Layer != s.strokes[ids[k-1]].Layer {
			n++
		}
	}
	return n
}

// spread shuffles, and parts equal neighbours where it can.
func spread(ids []int, r *rand.Rand) {
	r.Shuffle(len(ids), func(a, b int) { ids[a], ids[b] = ids[b], ids[a] })
	for k := 1; k < len(ids); k++ {
		if ids[k] != ids[k-1] {
			continue
		}
		for j := range ids {
			if fits(ids, j, ids[k]) && fits(ids, k, ids[j]) {
				ids[k], ids[j] = ids[j], ids[k]
				break
			}
		}
	}
}

// fits tells whether id may stand at j without an equal neighbour.
func fits(ids []int, j, id int) bool {
	return ids[j] != id && (j == 0 || ids[j-1] != id) && (j+1 == len(ids) || ids[j+1] != id)
}
