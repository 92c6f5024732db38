package board

import (
	"fmt"
	"strings"
	"unicode"
)

// Safe makes text from a file safe to show on a terminal: control and format
// characters (right-to-left marks among them), private ones and broken UTF-8
// become their code point in angle marks, and a combining mark with nothing
// under it gets a dotted circle, as Unicode shows it.
func Safe(s string) string {
	var b strings.Builder
	bare := true
	for _, r := range s {
		switch {
		case unicode.Is(unicode.M, r):
			if bare {
				b.WriteRune('◌')
			}
			b.WriteRune(r)
		case r == ' ' || unicode.IsGraphic(r) && !unicode.IsSpace(r) && r != unicode.ReplacementChar:
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "<U+%04X>", r)
		}
		bare = r == ' '
	}
	return b.String()
}
