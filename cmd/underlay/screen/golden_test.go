package screen

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/session"
)

var update = flag.Bool("update", false, "write the golden screens anew")

// sizes are the windows that every screen is drawn in.
func sizes() [][2]int { return [][2]int{{80, 24}, {60, 20}, {120, 40}} }

// themes are the golden screens' ways to stand out, by the name in their files.
func themes() map[string]Options {
	env := func(string) string { return "" }
	return map[string]Options{
		"colour": {Colours: "dark", Env: env},
		"none":   {Colours: "none", Env: env},
	}
}

// Every place, as it is drawn on tcell's simulated screen.
func TestGoldenScreens(t *testing.T) {
	for _, sc := range scenes() {
		for _, size := range sizes() {
			for theme, o := range themes() {
				name := fmt.Sprintf("%s-%dx%d-%s", sc.name, size[0], size[1], theme)
				t.Run(name, func(t *testing.T) {
					got := shot(t, sc.view(t), size[0], size[1], o)
					compare(t, filepath.Join("..", "..", "..", "testdata", "screens", name+".txt"), got)
				})
			}
		}
	}
}

func compare(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v (run with -update to write it)", err)
	}
	if got != string(want) {
		t.Errorf("%s differs; look at it, and run with -update if it is right. Got:\n%s", file, got)
	}
}

// shot paints a view on a simulated screen and writes down what is there: the
// text, then the style of each cell by a letter, then what the letters mean.
func shot(t *testing.T, v session.View, w, h int, o Options) string {
	t.Helper()
	s := tcell.NewSimulationScreen("UTF-8")
	if err := s.Init(); err != nil {
		t.Fatal(err)
	}
	defer s.Fini()
	s.SetSize(w, h)
	p := newPainter(s, newTheme(o, 1<<24))
	p.paint(v)
	return written(s)
}

func written(s tcell.SimulationScreen) string {
	cells, w, h := s.GetContents()
	var text, looks strings.Builder
	letters := map[tcell.Style]rune{tcell.StyleDefault: '.'}
	var legend []string
	for y := range h {
		for x := range w {
			c := cells[y*w+x]
			text.WriteString(string(c.Runes))
			if _, ok := letters[c.Style]; !ok {
				letters[c.Style] = rune('a' + len(legend))
				legend = append(legend, fmt.Sprintf("%c %s", letters[c.Style], styleWords(c.Style)))
			}
			looks.WriteRune(letters[c.Style])
		}
		text.WriteByte('\n')
		looks.WriteByte('\n')
	}
	cx, cy, shown := s.GetCursor()
	cursor := "no cursor"
	if shown && cx >= 0 {
		cursor = fmt.Sprintf("cursor %d %d", cx, cy)
	}
	return trimLines(text.String()) + "--\n" + trimLines(looks.String()) + "--\n" + strings.Join(append(legend, cursor), "\n") + "\n"
}

// trimLines cuts blanks at the ends of lines.
func trimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

func styleWords(s tcell.Style) string {
	fg, bg, attr := s.Decompose()
	var words []string
	for _, a := range []struct {
		bit  tcell.AttrMask
		name string
	}{{tcell.AttrBold, "bold"}, {tcell.AttrDim, "dim"}, {tcell.AttrReverse, "reverse"}, {tcell.AttrUnderline, "underline"}} {
		if attr&a.bit != 0 {
			words = append(words, a.name)
		}
	}
	if fg != tcell.ColorDefault {
		words = append(words, "fg "+fg.String())
	}
	if bg != tcell.ColorDefault {
		words = append(words, "bg "+bg.String())
	}
	return strings.Join(words, " ")
}
