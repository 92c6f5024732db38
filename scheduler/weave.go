package scheduler

import (
	"math"
	"math/rand/v2"
)

const (
	leastPicks = 2
	mostAlike  = 3      // picks of one stroke for an exercise
	fragments  = 10     // places that are looked at for each pick
	restMS     = 1500.0 // between two exercises
)

// pick chooses strokes by worth, one at a time, until they and their neighbours
// fill so many ms; each choice lowers the worth of the next of its kind. The
// picks are counted as planned.
func (s *Scheduler) pick(ms, now float64, may func(id int) bool) []int {
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
	for strokes, last := 0, -1; strokes < longestExercise && (ms > 0 || len(out) < leastPicks); {
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
		ms -= s.sitting.worth.cost[best]
		strokes++
		if len(s.pool.spots[best]) > 0 {
			ms -= 2 * s.sitting.worth.mean
			strokes += 2
		}
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

// piece is a picked stroke between its neighbours.
type piece struct {
	pick int
	ids  []int
}

// weave sets each picked stroke between the neighbours that it has somewhere in
// the user's code, where the three are worth most; what stands nowhere stands
// alone. Switches make a place dearer by their share times switching. The
// pieces follow each other as strokes do in the code, where they can. The
// picks for which ms do not suffice are left out; woven are the others.
func (s *Scheduler) weave(picks []int, ms, now, switching float64) (woven, out []int) {
	spread(picks, s.sitting.rng)
	pieces := make([]piece, len(picks))
	for k, id := range picks {
		pieces[k] = piece{id, s.fragment(id, now, switching)}
	}
	for k := range pieces {
		if k > 0 {
			next := s.following(pieces[k:], out[len(out)-1], woven[k-1])
			pieces[k], pieces[k+next] = pieces[k+next], pieces[k]
		}
		add := pieces[k].ids
		if overlap(out, add) {
			add = add[1:]
		}
		if ms -= s.took(add); ms < 0 && k >= leastPicks {
			break
		}
		out, woven = append(out, add...), append(woven, pieces[k].pick)
	}
	return woven, out
}

// overlap tells whether a piece begins with the stroke that the sequence ends with.
func overlap(out, piece []int) bool {
	return len(out) > 0 && len(piece) > 1 && out[len(out)-1] == piece[0]
}

// following returns which of the pieces goes on best after a stroke: one that
// begins with it, or with what often comes after it in the code, on its layer if
// none does; not one that is for the same pick as the last.
func (s *Scheduler) following(pieces []piece, last, pick int) int {
	const overlaps, follows, oftener, switches, same = 2, 1, .2, .3, 100
	best, top := 0, math.Inf(-1)
	for k, p := range pieces {
		first, v := p.ids[0], 0.0
		if n := s.pool.pairs[pair{last, first}]; n > 0 {
			v = follows + oftener*math.Log(float64(n))
		}
		if first == last && len(p.ids) > 1 {
			v = overlaps
		}
		if s.strokes[first].Layer != s.strokes[last].Layer {
			v -= switches
		}
		if p.pick == pick {
			v -= same
		}
		if v > top {
			best, top = k, v
		}
	}
	return best
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
