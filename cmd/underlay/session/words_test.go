package session

import (
	"testing"

	"underlay/drills/board"
)

// What ASCII (ANSI X3.4, ISO/IEC 646) gives one code is sent alike by terminals
// without an extended key protocol: TAB is Control and I, CR Control and M, ESC
// Control and [, BS Control and H.
func TestHeard(t *testing.T) {
	for _, c := range []struct {
		got, asked  board.Symbol
		first, then board.Symbol
	}{
		{board.Tab, "Control+i", "Control+i", ""},
		{board.Enter, "Control+m", "Control+m", ""},
		{board.Escape, "Control+[", "Control+[", ""},
		{board.Backspace, "Control+h", "Control+h", ""},
		{board.Tab, "Control+m", board.Tab, ""},
		{board.Tab, board.Tab, board.Tab, ""},
		{"Alt+j", board.Escape, board.Escape, "j"},
		{"Alt+j", "j", "Alt+j", ""},
		{"x", board.Escape, "x", ""},
	} {
		if first, then := heard(c.got, c.asked); first != c.first || then != c.then {
			t.Errorf("%s while %s is asked for: %q %q, want %q %q", c.got, c.asked, first, then, c.first, c.then)
		}
	}
}

// The characters that Unicode's confusables (UTS #39) map to one of these
// skeletons are told apart in words.
func TestConfusableSymbolsAreNamed(t *testing.T) {
	for _, group := range [][]board.Symbol{
		{"l", "I", "1", "|"}, {"O", "0"}, {"'", "`", "\""}, {".", ","}, {":", ";"}, {"-", "_"}, {"Space", "\u00a0"}, {"a", "ａ"}, {"(", "（"},
	} {
		seen := map[string]board.Symbol{}
		for _, s := range group {
			l := label(s)
			if before, ok := seen[l]; ok {
				t.Errorf("%q and %q are both labelled %q", before, s, l)
			}
			seen[l] = s
			if l == string(s) && s != "a" && s != "(" {
				t.Errorf("%q has no name", s)
			}
		}
	}
	for _, s := range []board.Symbol{"\u202e", "\x1b"} {
		if l := label(s); l == string(s) {
			t.Errorf("%q is shown raw", s)
		}
	}
}
