package report

import (
	"math"
	"strings"

	"github.com/rivo/uniseg"
)

// bar draws value as a bar of at most width cells, of which max takes all;
// its end is exact to an eighth of a cell. Nothing is drawn below zero.
func bar(value, max float64, width int) string {
	if !(max > 0) || !(value > 0) {
		return ""
	}
	eighths := int(math.Round(8 * float64(width) * math.Min(value/max, 1)))
	full := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		full += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return full
}

// pad fills text with blanks up to width cells, and cuts what is longer.
func pad(text string, width int) string {
	text = fit(text, width)
	return text + strings.Repeat(" ", max(0, width-uniseg.StringWidth(text)))
}

// right puts text at the right edge of width cells.
func right(text string, width int) string {
	return strings.Repeat(" ", max(0, width-uniseg.StringWidth(text))) + text
}

// fit cuts text down to width cells; what is left off is marked.
func fit(text string, width int) string {
	if uniseg.StringWidth(text) <= width {
		return text
	}
	var b strings.Builder
	n := 0
	for g := uniseg.NewGraphemes(text); g.Next(); {
		if n += g.Width(); n > width-1 {
			break
		}
		b.WriteString(g.Str())
	}
	return b.String() + "…"
}
