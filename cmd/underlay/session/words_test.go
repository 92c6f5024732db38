package session

import (
	"testing"

	"underlay/drills"
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

// While a drill asks for something, a command is given by a key that is neither
// the answer nor a likely slip.
func TestKeysOfCommands(t *testing.T) {
	b, found := board.Read("b.toml", []byte(`
name = "b"
os-layout = "us"
[shape]
kind = "split"
[[layer]]
name = "base"
keys = '''
a c || p Escape
Control x:hold || Space Enter
'''
[[layer]]
name = "x"
keys = '''
( ) || { }
.. -- || .. ..
'''
`))
	if err := found.Err(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		asked          board.Symbol
		pause, leaving string
	}{
		{"a", "Escape", "Control+c"},
		{"c", "Escape", "Control+q"}, // Control held by mistake
		{")", "Escape", "Control+q"}, // on c: Control held instead of the layer's key
		{board.Escape, "Control+p", "Control+c"},
		{"Control+c", "Escape", "Escape q"}, // a chord: another may come by a slip
		{"Control+a", "Escape", "Escape q"},
	} {
		st, ok := b.Drilled(c.asked)
		if !ok {
			t.Fatalf("the board has no %s", c.asked)
		}
		ask := drills.Ask{Symbol: c.asked, Stroke: st}
		if p, l := keyFor(pausing, ask, b), keyFor(leaving, ask, b); p != c.pause || l != c.leaving {
			t.Errorf("while %s is asked for: %s pauses and %s leaves, want %s and %s", c.asked, p, l, c.pause, c.leaving)
		}
		for _, w := range ways() {
			if k := w.key(ask, b); k != "" && commandOf(k, ask, b) != w.does {
				t.Errorf("while %s is asked for, %s does not do what is told", c.asked, k)
			}
		}
		if got := commandOf(c.asked, ask, b); got != none {
			t.Errorf("%s is the answer and a command as well", c.asked)
		}
	}
	if got := commandOf("Control+c", drills.Ask{Symbol: "Control+a", Stroke: stroke(t, b, "Control+a")}, b); got != none {
		t.Error("a slip from one chord to another leaves the sitting")
	}
}

func stroke(t *testing.T, b *board.Board, s board.Symbol) board.Stroke {
	st, ok := b.Drilled(s)
	if !ok {
		t.Fatalf("the board has no %s", s)
	}
	return st
}
