package drills

import (
	"testing"

	"underlay/corpus"
	"underlay/corpus/code"
)

// What stands by itself by the references of the languages, and what does not:
// WHATWG HTML, "Tags"; the Haskell 2010 report, "Layout"; POSIX, "Shell
// Grammar"; ECMAScript, "Statements"; ISO C, "Selection statements"; the references of Rust and Java, "Expressions"; CommonMark, "Emphasis and strong emphasis". Spelled as in section Line of a table.
func TestSoundLines(t *testing.T) {
	languages := code.All()
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
		{"rust", `.x("s")`, false}, {"rust", "where", false}, {"javascript", "x &&", false}, {"javascript", "? x", false}, {"c", "else", false}, {"java", `+ "s"`, false},
		{"go", "x)", true}, // nothing is told of it
	} {
		l := &language{grammar: languages.Named(c.language).Grammar}
		if got := l.sound(corpus.ParseLine(c.line)); got != c.want {
			t.Errorf("%s: %q makes sense: %v, want %v", c.language, c.line, got, c.want)
		}
	}
}

// Words that open and close blocks by the references of the languages: the
// Lua manual, "Control Structures" and "Function Definitions"; Ruby's
// documentation of its syntax, "Control Expressions"; POSIX, "Shell Grammar".
func TestBlocksOfWords(t *testing.T) {
	languages := code.All()
	for _, c := range []struct{ language, line, opens, closes string }{
		{"lua", "if x then", "end", ""}, {"lua", "for x = 0, x do", "end", ""}, {"lua", "local function x(x)", "end", ""}, {"lua", "end", "", "end"},
		{"lua", "function() return x end", "", ""}, {"lua", "x = x", "", ""},
		{"ruby", "def x", "end", ""}, {"ruby", "x.x do |x|", "end", ""}, {"ruby", "x if x", "", ""}, {"ruby", "end", "", "end"},
		{"shell", "if x; then", "fi", ""}, {"shell", "while x; do", "done", ""}, {"shell", "case $x in", "esac", ""}, {"shell", "done", "", "done"},
		{"shell", "if x; then x; fi", "", ""}, {"go", "if x {", "", ""},
	} {
		l := &language{grammar: languages.Named(c.language).Grammar}
		line := corpus.ParseLine(c.line)
		word := func(mark string) string {
			if mark == "" {
				return ""
			}
			return l.closingWord(mark[0])
		}
		if opens, closes := word(l.wordOpens(line)), word(l.wordCloses(line)); opens != c.opens || closes != c.closes {
			t.Errorf("%s: %q opens %q and closes %q, want %q and %q", c.language, c.line, opens, closes, c.opens, c.closes)
		}
	}
}
