package drills

import (
	"testing"

	"underlay/corpus"
)

// What stands by itself by the references of the languages, and what does not:
// WHATWG HTML, "Tags"; the Haskell 2010 report, "Layout"; POSIX, "Shell
// Grammar"; ECMAScript, "Statements"; CommonMark, "Emphasis and strong emphasis". Spelled as in section Line of a table.
func TestSoundLines(t *testing.T) {
	for _, c := range []struct {
		language, line string
		want           bool
	}{
		{"html", `<x x="s">x</x>`, true}, {"html", "x x", true}, {"html", "<x <x>", false}, {"html", "x>", false}, {"html", "< x>", false}, {"html", "<x", false},
		{"haskell", "x :: X -> X", true}, {"haskell", ", x", false}, {"haskell", "x,", false},
		{"shell", `if [ "$x" = "s" ]; then`, true}, {"shell", "while [[@]]; then", false}, {"shell", "for x in x; do", true}, {"shell", "x |", false},
		{"shell", "x <<XX", false}, {"shell", "x=$(x x)", true}, {"shell", "x(x)", false}, {"shell", "x[x]", false}, {"shell", "x=${x x}", false},
		{"shell", `"${x[0]}"`, true}, {"shell", "then", false}, {"shell", "case $x in", true}, {"shell", "x() {", true},
		{"typescript", "x(x)", true}, {"typescript", ">(", false},
		{"markdown", "x *x* x", true}, {"markdown", "x *x x", false}, {"markdown", "* x x.", true}, {"markdown", "x/x= x/x= x", false}, {"markdown", "## x", true},
		{"go", "x)", true}, // nothing is told of it
	} {
		l := &language{name: c.language}
		if got := l.sound(corpus.ParseLine(c.line)); got != c.want {
			t.Errorf("%s: %q makes sense: %v, want %v", c.language, c.line, got, c.want)
		}
	}
}
