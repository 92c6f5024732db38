package board_test

import (
	"fmt"
	"strings"
	"testing"

	"underlay/drills/board"
)

// eightLayers is a board of 56 keys with eight layers, each full: four held by
// thumbs, one latched, one locked, one reached by two holds, and the base.
func eightLayers() []byte {
	var out strings.Builder
	out.WriteString("name = \"eight\"\n[shape]\nkind = \"split\"\n")
	base := "` 1 2 3 4 5 || 6 7 8 9 0 -\nTab q w e r t || y u i o p =\nEscape a/Control s/Alt d f g || h j k l/Alt ;/Control '\n" +
		"Shift z x c v b || n m , . / Shift\nControl five:latch Tab/three:hold Space/one:hold || Enter/two:hold Backspace/four:hold six:lock Alt\n"
	fmt.Fprintf(&out, "[[layer]]\nname = \"base\"\nkeys = '''\n%s'''\n", base)
	fill := "! @ # $ % ^ || & * ( ) _ +\n[ ] { } < > || Home PageDown PageUp End : \"\n~ F1 F2 F3 F4 F5 || ArrowLeft ArrowDown ArrowUp ArrowRight | \\\n" +
		".. F6 F7 F8 F9 F10 || F11 F12 Delete Insert ? ..\n"
	for i, name := range []string{"one", "two", "three", "four", "five", "six", "seven"} {
		when := ""
		if name == "seven" {
			when = "when = [\"one\", \"two\"]\n"
		}
		rows := strings.Split(fill, "\n")
		rows[0], rows[i%4] = rows[i%4], rows[0] // no two layers alike
		fmt.Fprintf(&out, "[[layer]]\nname = %q\n%skeys = '''\n%s\n.. .. .. .. || .. .. .. ..\n'''\n", name, when, strings.Join(rows, "\n"))
	}
	return []byte(out.String())
}

func TestEightLayersAreFound(t *testing.T) {
	b, found := board.Read("eight.toml", eightLayers())
	if err := found.Err(); err != nil {
		t.Fatal(err)
	}
	if n := len(b.Keys()); n != 56 || len(b.Layers()) != 8 {
		t.Errorf("%d keys, %d layers", n, len(b.Layers()))
	}
	ways := map[board.As]bool{}
	for _, s := range b.Strokes("!") {
		for _, p := range s.Keys {
			ways[p.As] = true
		}
	}
	for _, as := range []board.As{board.AsHold, board.AsLatch, board.AsLock} {
		if !ways[as] {
			t.Errorf("no stroke of ! by %s", as)
		}
	}
}

// BenchmarkAllStrokes reads the board and finds all strokes of all symbols.
// The bound set for it is 5 ms.
func BenchmarkAllStrokes(b *testing.B) {
	src := eightLayers()
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		k, _ := board.Read("eight.toml", src)
		n = 0
		for _, s := range k.Symbols() {
			n += len(k.Strokes(s))
		}
	}
	b.ReportMetric(float64(n), "strokes")
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := board.Load("split-42"); err != nil {
			b.Fatal(err)
		}
	}
}

// TestHugeFilesEndInAClearFault: what is no keyboard is refused in a moment,
// however large it is.
func TestHugeFilesEndInAClearFault(t *testing.T) {
	head := "name = \"huge\"\n[shape]\nkind = \"ortholinear\"\n"
	row := strings.Repeat("a ", 200) + "\n"
	picture := head + "[[layer]]\nname = \"base\"\nkeys = '''\n" + strings.Repeat(row, 200) + "'''\n"
	var cycle strings.Builder
	cycle.WriteString(head)
	for i := range 1000 {
		fmt.Fprintf(&cycle, "[[layer]]\nname = \"l%d\"\nkeys = '''\nl%d:lock a\n'''\n", i, (i+1)%1000)
	}
	for _, c := range []struct{ name, src, want string }{
		{"200 rows of 200", picture, "rows; 12 are the most"},
		{"a row of 200", head + "[[layer]]\nname = \"base\"\nkeys = '''\n" + row + "'''\n", "keys; 32 are the most"},
		{"a cycle of 1000 layers", cycle.String(), "layers; 32 are the most"},
		{"a megabyte", head + strings.Repeat("# no end\n", 1<<17), "a board needs no more than"},
	} {
		b, found := board.Read("huge.toml", []byte(c.src))
		if b != nil || len(found) == 0 || len(found) > 3 || !strings.Contains(found.Err().Error(), c.want) {
			t.Errorf("%s: %d findings, %v", c.name, len(found), found.Err())
		}
	}
}

// TestLockCycleOfManyLayers: as many locks as there may be layers, each in the
// one before, is a large space of states; the search stops at its bound.
func TestLockCycleOfManyLayers(t *testing.T) {
	var out strings.Builder
	out.WriteString("name = \"locks\"\n[shape]\nkind = \"ortholinear\"\n")
	for i := range 32 {
		fmt.Fprintf(&out, "[[layer]]\nname = \"l%d\"\nkeys = '''\n", i)
		for j := 1; j < 32; j++ {
			switch {
			case i == 0:
				fmt.Fprintf(&out, "l%d:%s ", j, []string{"lock", "hold", "latch"}[j%3])
			default:
				out.WriteString(".. ")
			}
		}
		fmt.Fprintf(&out, "%c\n'''\n", 'a'+i%26)
	}
	b, found := board.Read("locks.toml", []byte(out.String()))
	if b == nil {
		t.Fatal(found.Err())
	}
	if !strings.Contains(listed(found), "strokes beyond them are not found") {
		t.Errorf("the bound is not told:\n%s", listed(found))
	}
}

func TestSafe(t *testing.T) {
	for in, want := range map[string]string{
		"a b":              "a b",
		"\x1b[31mred":      "<U+001B>[31mred",
		"\u202eabc":        "<U+202E>abc",
		"\u0301":           "◌\u0301",
		"e\u0301":          "e\u0301",
		"漢":                "漢",
		"a\tb\nc":          "a<U+0009>b<U+000A>c",
		"\x7f\u0085\u200b": "<U+007F><U+0085><U+200B>",
		"bad\xff":          "bad<U+FFFD>",
		"\ufeff\ue000":     "<U+FEFF><U+E000>",
	} {
		if got := board.Safe(in); got != want {
			t.Errorf("Safe(%q) = %q, want %q", in, got, want)
		}
	}
}

// FuzzRead: whatever is read ends in a board or in faults with places inside
// the file, and what is told is safe to show.
func FuzzRead(f *testing.F) {
	for _, name := range board.Embedded() {
		b, _ := board.Load(name)
		f.Add(b.Source())
	}
	f.Add(eightLayers())
	f.Add([]byte("name = \"\\u202e\"\n[shape]\nkind='split'\n[[layer]]\nname='b'\nkeys='a || \\u0301'\n[prefer]\n'('='r1c1'"))
	f.Fuzz(func(t *testing.T, src []byte) {
		b, found := board.Read("fuzz.toml", src)
		if (b == nil) != (found.Err() != nil) {
			t.Fatalf("board %v with %v", b != nil, found.Err())
		}
		lines := strings.Count(string(src), "\n") + 1
		for _, x := range found {
			if text := x.String(); board.Safe(text) != text || x.Line < 0 || x.Line > lines+1 {
				t.Fatalf("%q, line %d of %d", text, x.Line, lines)
			}
		}
		if b == nil {
			return
		}
		for _, l := range b.Layers() {
			for _, k := range b.Keys() {
				if s := b.Legend(l, k.Position).Short(); board.Safe(s) != s {
					t.Fatalf("legend %q", s)
				}
			}
		}
		for _, s := range b.Symbols() {
			d, ok := b.Drilled(s)
			if !ok || b.Words(d) == "" || d.Effort < 1 {
				t.Fatalf("%s: %v %q", s, d, b.Words(d))
			}
		}
	})
}
