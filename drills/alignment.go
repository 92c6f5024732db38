package drills

import "slices"

// MSD is the minimum string distance of two texts: the least number of
// insertions, deletions and substitutions that turn one into the other
// (Levenshtein distance, unit costs).
func MSD[S comparable](p, t []S) int { return distances(p, t).at(len(p), len(t)) }

// grid holds the distances of all prefixes of P and T.
type grid struct {
	cells []int
	width int
}

func (g grid) at(i, j int) int { return g.cells[i*g.width+j] }

func distances[S comparable](p, t []S) grid {
	g := grid{cells: make([]int, (len(p)+1)*(len(t)+1)), width: len(t) + 1}
	for i := range len(p) + 1 {
		for j := range len(t) + 1 {
			g.cells[i*g.width+j] = distance(g, p, t, i, j)
		}
	}
	return g
}

func distance[S comparable](g grid, p, t []S, i, j int) int {
	if i == 0 || j == 0 {
		return i + j
	}
	return min(g.at(i-1, j)+1, g.at(i, j-1)+1, g.at(i-1, j-1)+differ(p[i-1], t[j-1]))
}

func differ[S comparable](a, b S) int {
	if a == b {
		return 0
	}
	return 1
}

// Step is one place of an alignment: an index into P and one into T, or -1
// where the other text has a symbol and this one has none. P -1 is an
// insertion, T -1 an omission.
type Step struct{ P, T int }

// steps lists the last steps of the optimal alignments of p[:i] and t[:j].
func steps[S comparable](g grid, p, t []S, i, j int) []Step {
	var out []Step
	if i > 0 && j > 0 && g.at(i-1, j-1)+differ(p[i-1], t[j-1]) == g.at(i, j) {
		out = append(out, Step{i - 1, j - 1})
	}
	if i > 0 && g.at(i-1, j)+1 == g.at(i, j) {
		out = append(out, Step{i - 1, -1})
	}
	if j > 0 && g.at(i, j-1)+1 == g.at(i, j) {
		out = append(out, Step{-1, j - 1})
	}
	return out
}

// back returns the prefix lengths that are left before a step.
func (s Step) back(i, j int) (int, int) {
	if s.P >= 0 {
		i--
	}
	if s.T >= 0 {
		j--
	}
	return i, j
}

// Alignments returns the optimal alignments of P and T, at most limit of
// them; their number grows exponentially with the distance. Source: MacKenzie
// and Soukoreff, A character-level error analysis technique, NordiCHI 2002.
func Alignments[S comparable](p, t []S, limit int) [][]Step {
	g := distances(p, t)
	var out [][]Step
	var walk func(i, j int, tail []Step)
	walk = func(i, j int, tail []Step) {
		if len(out) >= limit {
			return
		}
		if i == 0 && j == 0 {
			whole := slices.Clone(tail)
			slices.Reverse(whole)
			out = append(out, whole)
			return
		}
		for _, s := range steps(g, p, t, i, j) {
			bi, bj := s.back(i, j)
			walk(bi, bj, append(tail, s))
		}
	}
	walk(len(p), len(t), nil)
	return out
}

// MeanAlignment is the mean length of all optimal alignments of P and T. It
// counts them without listing them.
func MeanAlignment[S comparable](p, t []S) float64 {
	g := distances(p, t)
	number := make([]float64, len(g.cells)) // how many optimal alignments the prefixes have
	length := make([]float64, len(g.cells)) // their mean length
	number[0] = 1
	for i := range len(p) + 1 {
		for j := range len(t) + 1 {
			at := i*g.width + j
			for _, s := range steps(g, p, t, i, j) {
				bi, bj := s.back(i, j)
				from := bi*g.width + bj
				number[at] += number[from]
				length[at] += number[from] * (length[from] + 1)
			}
			if at > 0 {
				length[at] /= number[at]
			}
		}
	}
	return length[len(g.cells)-1]
}
