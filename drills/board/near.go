package board

import (
	"slices"
	"strings"
)

// nearest returns the name closest to text by edit distance (Levenshtein,
// letter case aside), or "" where none is near: more than a third of the
// letters differ.
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

// distance is the least number of insertions, deletions and substitutions of
// bytes that turn a into b.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			above := row[j+1]
			row[j+1] = min(above+1, row[j]+1, diagonal+btoi(a[i] != b[j]))
			diagonal = above
		}
	}
	return row[len(b)]
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
