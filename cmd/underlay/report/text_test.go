package report

import (
	"slices"
	"strings"
	"testing"

	"github.com/rivo/uniseg"

	"underlay/cmd/underlay/standing"
	"underlay/cmd/underlay/standing/standingtest"
)

// practised is where an invented typist stands after 32 days with a break.
func practised(t testing.TB, boards ...string) standing.Standing {
	t.Helper()
	return standingtest.For(t, boards...).Practised([2]int{0, 12}, [2]int{20, 40}).On(40)
}

// The text is one screen, with what is asked every week in its upper half, and keeps to
// its width; nothing in it moves the cursor, whatever a board or a symbol is called.
func TestTextIsOneScreen(t *testing.T) {
	s := practised(t, "split-38", "ansi-61")
	for _, width := range []int{78, 80, 100, 200} {
		lines := Text(s, width)
		if text := strings.Join(lines, "\n"); len(lines) > 20 || strings.Contains(text, "…") {
			t.Errorf("at %d cells %d lines, want at most 20, and none cut:\n%s", width, len(lines), text)
		}
		upper := strings.Join(lines[:12], "\n")
		for _, asked := range []string{"readiness", "outlook", "upkeep", "holds back", "moving keys"} {
			if !strings.Contains(upper, asked) {
				t.Errorf("at %d cells the first 12 lines say nothing of %s:\n%s", width, asked, upper)
			}
		}
	}
	s.HoldsBack.Strokes[0].Name = "\x1b[2J漢字漢字漢字"
	s.Boards[0].Name = "a\tb\x07"
	for _, width := range []int{40, 60, 80, 200} {
		lines := slices.Concat([]string{Head(s, width)}, Text(s, width), Moves(s, width))
		for _, l := range lines {
			if n := uniseg.StringWidth(l); n > width {
				t.Errorf("%d cells, want at most %d: %q", n, width, l)
			}
			if strings.ContainsFunc(l, func(r rune) bool { return r < ' ' || r == 0x7f }) {
				t.Errorf("a control character in %q", l)
			}
		}
	}
}

// What is known is said, and what is not, with what is missing.
func TestTextSays(t *testing.T) {
	text := func(s standing.Standing) string { return strings.Join(Text(s, 80), "\n") }
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"two boards": {text(practised(t, "split-38", "ansi-61")), []string{"of your speed on ansi-61", "probe lines", "ms a stroke with repair", "upkeep", "holds back", "layer "}},
		"one board":  {text(practised(t, "split-38")), []string{"layers ", "of your speed on the base layer"}},
		"nothing":    {text(standingtest.For(t, "split-38", "ansi-61").On(1)), []string{"Nothing has been practised on split-38 yet", "Some lines on ansi-61 now"}},
	} {
		for _, want := range c.want {
			if !strings.Contains(c.text, want) {
				t.Errorf("%s: no %q in\n%s", name, want, c.text)
			}
		}
		if strings.Contains(c.text, "NaN") || strings.Contains(c.text, "Inf") {
			t.Errorf("%s: a figure that is no number in\n%s", name, c.text)
		}
	}
}

// What a text is of keeps to its room: without the day where that is too long, and
// with a part of the name at last.
func TestAbout(t *testing.T) {
	s := standing.Standing{Invented: true, At: standingtest.Start(), Boards: []standing.Side{{Name: "split-38", Sessions: 1}}}
	for _, c := range []struct {
		room int
		want string
	}{
		{80, "split-38, 1 practised session (invented), 1 September 2026"},
		{50, "split-38, 1 practised session (invented)"},
		{36, "spl…, 1 practised session (invented)"},
	} {
		if got := About(s, c.room); got != c.want {
			t.Errorf("in %d cells %q, want %q", c.room, got, c.want)
		}
	}
}

func TestBar(t *testing.T) {
	for _, c := range []struct {
		value, max float64
		want       string
	}{{8, 8, "████"}, {4, 8, "██"}, {1, 32, "▏"}, {3, 32, "▍"}, {99, 8, "████"}, {-1, 8, ""}, {0, 8, ""}, {1, 0, ""}} {
		if got := bar(c.value, c.max, 4); got != c.want {
			t.Errorf("bar(%v of %v) = %q, want %q", c.value, c.max, got, c.want)
		}
	}
}

// The dots of a braille cell are numbered as in the Unicode Standard: 1 2 3 7
// down the left, 4 5 6 8 down the right; U+2800 has none, U+28FF has all.
func TestDots(t *testing.T) {
	for _, c := range []struct {
		x, y int
		want string
	}{{0, 0, "⠁"}, {0, 1, "⠂"}, {0, 2, "⠄"}, {0, 3, "⡀"}, {1, 0, "⠈"}, {1, 1, "⠐"}, {1, 2, "⠠"}, {1, 3, "⢀"}} {
		d := newDots(1, 1)
		d.set(c.x, c.y)
		if got := d.lines()[0]; got != c.want {
			t.Errorf("dot %d, %d is %q, want %q", c.x, c.y, got, c.want)
		}
	}
	d := newDots(1, 1)
	for x := range 2 {
		d.line(x, 0, x, 3)
	}
	if got := d.lines()[0]; got != "⣿" {
		t.Errorf("all dots are %q", got)
	}
	d.set(-1, 0)
	d.set(0, 9)
}

func TestWhole(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 999.4: "999", 1234567: "1,234,567", -1619.2: "−1,619", -.2: "0"} {
		if got := whole(x); got != want {
			t.Errorf("whole(%v) = %q, want %q", x, got, want)
		}
	}
}
