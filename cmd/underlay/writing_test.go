package main

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underlay/drills/board"
)

// written is a drill whose groups are parted by gaps.
func written(groups string) writing {
	var w writing
	for i, g := range strings.Fields(groups) {
		for j, r := range g {
			s := board.SymbolOf(r)
			if r == '_' {
				s = board.Space
			}
			w.asked, w.gaps = append(w.asked, s), append(w.gaps, i > 0 && j == 0)
		}
	}
	return w
}

func TestFeed(t *testing.T) {
	for _, c := range []struct{ asked, typed, want string }{
		{"ab cd", "ab cd", "a b c d"},                // gaps may be typed
		{"ab cd", "abcd", "a b c d"},                 // or not
		{"a_b", "a b", "a Space b"},                  // a space that was asked for
		{"abcd", "abxd", "a b x c d"},                // another symbol
		{"abcd", "abd", "a b Unidentified c d"},      // one left out
		{"abcd", "abxcd", "a b x c d"},               // one too many
		{"abcd ef", "abxd ef", "a b x c d e f"},      // with a gap
		{"abcd", "abcdx", "a b c d x"},               // one too many at the end
		{"ab cdef", "ab  cdef", "a b Space c d e f"}, // a gap typed twice
	} {
		got, ok := written(c.asked).feed(c.typed)
		var words []string
		for _, s := range got {
			words = append(words, string(s))
		}
		if strings.Join(words, " ") != c.want || !ok {
			t.Errorf("%q for %q: %q, %v", c.typed, c.asked, words, ok)
		}
	}
	if _, ok := written("abcdef").feed("something else"); ok {
		t.Error("a line that has nothing to do with it is graded")
	}
}

func TestPromptShowsGapsAsSpaces(t *testing.T) {
	for groups, want := range map[string]string{"a_b": "a b", "ab cd": "ab cd", "a_b cd": "a␣b cd"} {
		if got := written(groups).prompt(); got != want {
			t.Errorf("%q: %q, want %q", groups, got, want)
		}
	}
}

// Whatever is typed, the symbols that are sent lead through the drill: what was
// asked for is among them in its order, so that a drill never hangs.
func TestFeedLeadsThroughTheDrill(t *testing.T) {
	alphabet := rapid.SampledFrom([]rune("ab( _€"))
	rapid.Check(t, func(t *rapid.T) {
		asked := string(rapid.SliceOfN(alphabet, 1, 14).Draw(t, "asked"))
		typed := string(rapid.SliceOfN(alphabet, 0, 18).Draw(t, "typed"))
		w := written(asked)
		got, ok := w.feed(typed)
		if !ok {
			return
		}
		at := 0
		for _, s := range got {
			if at < len(w.asked) && s == w.asked[at] {
				at++
			}
		}
		if at != len(w.asked) {
			t.Fatalf("%q for %q stops at %d: %q", typed, asked, at, got)
		}
	})
}

// A screen reader may pass over marks, so that they have their names, as Unicode
// and POSIX have them, and no signs stand between words.
func TestSpoken(t *testing.T) {
	for s, want := range map[board.Symbol]string{
		"{": "{ left curly bracket", "~": "~ tilde", "a": "a", "Ä": "Ä", "7": "7", board.Space: "space", board.ArrowLeft: "ArrowLeft", "€": "€",
	} {
		if got := spoken(s); got != want {
			t.Errorf("%s is said as %q, want %q", s, got, want)
		}
	}
	if got := spokenWords("hold left thumb 3 · right index finger, home row"); got != "hold left thumb 3, right index finger, home row" {
		t.Errorf("%q", got)
	}
}
