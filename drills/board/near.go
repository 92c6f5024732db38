package board

import (
	"cmp"
	"slices"
	"strings"
)

// Near returns the names that text was probably meant for, at most three, the
// nearest first: those that differ in a third of their letters at most, letter
// case aside, those of its two letters, swapped, and those that text shortens.
func Near(text string, names []string) []string {
	const longest = 40 // no name is as long; what is would cost time
	type candidate struct {
		name     string
		distance int
	}
	a := []rune(strings.ToLower(text))
	if len(a) < 2 || len(a) > longest {
		return nil
	}
	var found []candidate
	for _, name := range names {
		b := []rune(strings.ToLower(name))
		d := distance(a, b)
		swapped := len(a) == 2 && len(b) == 2 && a[0] == b[1] && a[1] == b[0]
		if 3*d <= max(len(a), len(b)) || swapped || len(a) > 2 && shortens(a, b) {
			found = append(found, candidate{name, d})
		}
	}
	slices.SortFunc(found, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(a.name, b.name))
	})
	out := make([]string, 0, 3)
	for _, c := range found[:min(3, len(found))] {
		out = append(out, c.name)
	}
	return out
}

// shortens tells whether a is b with letters left out, such as Ctrl or Bksp; the
// first one stays.
func shortens(a, b []rune) bool {
	if len(b) == 0 || a[0] != b[0] {
		return false
	}
	for _, r := range b {
		if len(a) > 0 && r == a[0] {
			a = a[1:]
		}
	}
	return len(a) == 0
}

// nearest returns the first of Near, or "" where no name is near.
func nearest(text string, names []string) string {
	if near := Near(text, names); len(near) > 0 {
		return near[0]
	}
	return ""
}

// distance is the least number of insertions, deletions, substitutions and
// swaps of neighbours that turn a into b (optimal string alignment: no rune is
// changed twice).
func distance(a, b []rune) int {
	var before []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range b {
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
