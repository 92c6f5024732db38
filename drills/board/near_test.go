package board

import (
	"slices"
	"testing"
)

// The distances are worked examples of the literature: kitten and sitting are
// 3 apart by Levenshtein's measure, CA and ABC 3 by optimal string alignment
// (2 without its restriction). From memory.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3}, {"ca", "abc", 3}, {"wrok", "work", 1}, {"", "abc", 3}, {"abc", "", 3}, {"same", "same", 0},
		{"ab", "ba", 1}, {"straße", "strasse", 2},
	} {
		if got := distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("%q and %q are %d apart, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestNear(t *testing.T) {
	for _, c := range []struct {
		text  string
		names []string
		want  []string
	}{
		{"wrok", []string{"home", "work"}, []string{"work"}},
		{"mx", []string{"aim", "mix"}, []string{"mix"}},
		{"Escpae", []string{"Enter", "Escape"}, []string{"Escape"}},
		{"cor", []string{"board", "corpus"}, []string{"corpus"}},
		{"Ctrl", []string{"Clear", "Control", "Alt"}, []string{"Control"}},
		{"Bksp", []string{"Backspace", "Space"}, []string{"Backspace"}},
		{"rtl", []string{"Control"}, []string{}}, // the first letter stays
		{"split-43", []string{"split-42", "split-38", "split-34", "split-56", "ansi-61"}, []string{"split-34", "split-42", "split-38"}},
		{"xyzzy", []string{"work", "home"}, []string{}},
		{"fi", []string{"F1", "F5"}, []string{}}, // half of it is another
		{"og", []string{"go", "c", "java"}, []string{"go"}},
		{"a", []string{"b", "ab"}, nil},
	} {
		if got := Near(c.text, c.names); !slices.Equal(got, c.want) {
			t.Errorf("near %q of %q: %q, want %q", c.text, c.names, got, c.want)
		}
	}
}
