package config

import (
	"fmt"
	"strings"

	"underlay/drills/board"
)

// DidYouMean words near names as a hint; it is empty without any.
func DidYouMean(name string, known []string) string {
	near := board.Near(name, known)
	if len(near) == 0 {
		return ""
	}
	for i, n := range near {
		near[i] = fmt.Sprintf("%q", n)
	}
	return "did you mean " + strings.Join(near, " or ") + "?"
}
