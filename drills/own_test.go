package drills

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"underlay/drills/board"
)

func own(t *testing.T, text string, o Options) []string {
	t.Helper()
	ds, err := Own(strings.NewReader(text), load(t, "split-38"), o)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]string, len(ds))
	for i, d := range ds {
		if d.Kind != OwnLine {
			t.Errorf("%v: kind %s, want own", d, d.Kind)
		}
		out[i] = d.String()
	}
	return out
}

func TestOwnLines(t *testing.T) {
	long := strings.Repeat("count += step; ", 12)
	tests := []struct {
		name, text string
		want       []string
	}{
		{"indentation", "\tif x {\n\t\treturn\n\t}\n", []string{"if x {‹⏎›", "return‹⏎›"}}, // one mark is no line
		{"empty", "", nil},
		{"no line end", "x := 1", []string{"x := 1‹⏎›"}},
		{"carriage returns", "x := 1\r\ny := 2\r\n", []string{"x := 1‹⏎›", "y := 2‹⏎›"}},
		{"tabs and runs of spaces", "a\t=\t  b\n", []string{"a = b‹⏎›"}},
		{"control characters", "x\x1b[31mred\x07 \x00= 1\x7f\n", []string{"x[31mred = 1‹⏎›"}},
		{"bidirectional marks", "a\u202e = b\u200b\n", []string{"a = b‹⏎›"}},
		{"broken UTF-8", "a\xff = b\xc3\n", []string{"a = b‹⏎›"}},
		{"what the board lacks", "größe = 1\nsize = 1\n", []string{"size = 1‹⏎›"}},
		{"a long line", long, []string{strings.TrimSpace(strings.Repeat("count += step; ", 4)) + " count +=", "step; count += step; count += step; count += step; count += step; count", "+= step; count += step; count += step;‹⏎›"}},
		{"a long word", strings.Repeat("x", 100) + " = 1\n", []string{"= 1‹⏎›"}},
	}
	for _, c := range tests {
		got := own(t, c.text, Options{})
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestOwnKeeps(t *testing.T) {
	got := own(t, "a = b\nc + d\n", Options{Keeps: []board.Symbol{"+"}})
	if len(got) != 1 || got[0] != "a = b‹⏎›" {
		t.Errorf("%q, want the line with + skipped", got)
	}
}

// A file of one endless line costs no memory and gives no drill.
func TestOwnEndlessLine(t *testing.T) {
	endless := io.LimitReader(iotest.DataErrReader(repeat('x')), 8<<20)
	ds, err := Own(io.MultiReader(endless, strings.NewReader("\nx = 1\n")), load(t, "split-38"), Options{})
	if err != nil || len(ds) != 1 {
		t.Errorf("%d drills, %v; want the one line that is code", len(ds), err)
	}
}

type repeat byte

func (r repeat) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(r)
	}
	return len(p), nil
}

func TestOwnManyLines(t *testing.T) {
	if got := own(t, strings.Repeat("x = 1\n", 5000), Options{}); len(got) != ownDrills {
		t.Errorf("%d drills, want %d", len(got), ownDrills)
	}
}

func TestOwnBrokenReader(t *testing.T) {
	broken := errors.New("broken")
	ds, err := Own(io.MultiReader(strings.NewReader("x = 1\n"), iotest.ErrReader(broken)), load(t, "split-38"), Options{})
	if !errors.Is(err, broken) || len(ds) != 1 {
		t.Errorf("%d drills, %v; want what was read, and the error", len(ds), err)
	}
}
