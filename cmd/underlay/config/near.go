package config

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"underlay/drills"
)

// Near returns the known words that name was probably meant for, the nearest
// first, by edit distance: at most a third of the letters may differ.
func Near(name string, known []string) []string {
	type candidate struct {
		word     string
		distance int
	}
	var found []candidate
	for _, word := range known {
		a, b := []rune(strings.ToLower(name)), []rune(strings.ToLower(word))
		if n := drills.MSD(a, b); n <= max(1, (len(b)+1)/3) || len(a) > 1 && strings.HasPrefix(string(b), string(a)) {
			found = append(found, candidate{word, n})
		}
	}
	slices.SortStableFunc(found, func(a, b candidate) int { return cmp.Compare(a.distance, b.distance) })
	words := make([]string, 0, 3)
	for _, c := range found[:min(3, len(found))] {
		words = append(words, c.word)
	}
	return words
}

// DidYouMean words near names as a hint; it is empty without any.
func DidYouMean(name string, known []string) string {
	near := Near(name, known)
	if len(near) == 0 {
		return ""
	}
	for i, n := range near {
		near[i] = fmt.Sprintf("%q", n)
	}
	return "did you mean " + strings.Join(near, " or ") + "?"
}
