package board

import (
	"slices"
	"strings"
)

// nearest returns the name closest to text by edit distance, letter case aside,
// or "" where none is near: more than a third of the letters differ.
func nearest(text string, names []string) string {
	best, at := "", len(text)/3+1
	if len(text) > 40 || len(text) < 2 {
		return ""
	}
	names = slices.Clone(names)
	slices.Sort(names)
	for _, n := range names {
		if len(n) > len(text)+at || len(text) > len(n)+at {
			continue
		}
		if d := distance(strings.ToLower(text), strings.ToLower(n)); d < at || d == at && best == "" && d < len(n) && d <= len(text)/3 {
			best, at = n, d
		}
	}
	return best
}

// distance is the least number of insertions, deletions, substitutions and
// swaps of neighbours that turn the bytes of a into b (optimal string
// alignment: no byte is changed twice).
func distance(a, b string) int {
	var before []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range len(b) {
			next[j+1] = min(row[j+1]+1, next[j]+1, row[j]+btoi(a[i] != b[j]))
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(b)]
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
