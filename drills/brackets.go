package drills

import "strings"

const openers, closers = "([{", ")]}"

func isOpener(s string) bool { return len(s) == 1 && strings.Contains(openers, s) }
func isCloser(s string) bool { return len(s) == 1 && strings.Contains(closers, s) }

func closerOf(opener string) string {
	i := strings.Index(openers, opener)
	return closers[i : i+1]
}

// closersOf returns what closes the brackets that are open, innermost first.
func closersOf(open string) string {
	var b strings.Builder
	for i := len(open) - 1; i >= 0; i-- {
		b.WriteString(closerOf(open[i : i+1]))
	}
	return b.String()
}

func isQuote(s string) bool { return s == `"` || s == "'" || s == "`" }
