package screen

import (
	"math"
	"testing"

	"github.com/gdamore/tcell/v2"
)

func noEnv(string) string { return "" }

// Each look that means something differs from plain text without its colour:
// taking the colours away leaves attributes that differ.
func TestNothingRestsOnColourAlone(t *testing.T) {
	for _, colours := range []string{"auto", "dark", "light"} {
		for _, n := range []int{8, 16, 256, 1 << 24} {
			th := newTheme(Options{Colours: colours, Env: noEnv}, n)
			for _, l := range []look{strong, accent, target, hold, lit, slip, wrong, chosen} {
				_, _, attr := th.styles[l].Decompose()
				if attr == tcell.AttrNone {
					t.Errorf("%s with %d colours: look %d is told by colour alone", colours, n, l)
				}
			}
		}
	}
}

// The convention of https://no-color.org: set and not empty, whatever it says.
func TestNoColour(t *testing.T) {
	for _, o := range []Options{
		{Colours: "dark", Env: func(k string) string { return map[string]string{"NO_COLOR": "1"}[k] }},
		{Colours: "none", Env: noEnv},
	} {
		for i, s := range newTheme(o, 1<<24).styles {
			if fg, bg, _ := s.Decompose(); fg != tcell.ColorDefault || bg != tcell.ColorDefault {
				t.Errorf("look %d has a colour", i)
			}
		}
	}
	for i, s := range newTheme(Options{Colours: "dark", Env: noEnv}, 0).styles {
		if fg, _, _ := s.Decompose(); fg != tcell.ColorDefault {
			t.Errorf("look %d has a colour on a terminal without", i)
		}
	}
}

// Contrast as WCAG 2.1 defines it (relative luminance, success criterion
// 1.4.3): at least 4.5 to 1 for text, also in the nearest of 256 colours. The
// formula gives 21 for black on white, as stated there.
func TestContrast(t *testing.T) {
	black, white := tcell.NewHexColor(0), tcell.NewHexColor(0xffffff)
	if c := contrast(black, white); math.Abs(c-21) > 1e-9 {
		t.Fatalf("black on white has %g, want 21", c)
	}
	for _, on := range []struct {
		want   string
		ground tcell.Color
	}{{"dark", black}, {"light", white}, {"auto", black}, {"auto", white}} {
		want, ground := on.want, on.ground
		p := paletteFor(want, 1<<24)
		colours := map[string]tcell.Color{"accent": p.accent, "slip": p.slip}
		if faint, _, _ := p.faint.Decompose(); faint != tcell.ColorDefault { // else it is dim, as the terminal has it
			colours["faint"] = faint
		}
		for name, c := range colours {
			for _, c := range []tcell.Color{c, nearest(c)} {
				if k := contrast(c, ground); k < 4.5 {
					t.Errorf("%s, %s as %06x: contrast %.2f to 1", want, name, c.Hex(), k)
				}
			}
		}
	}
}

// nearest is what tcell shows of a colour on a terminal of 256 colours.
func nearest(c tcell.Color) tcell.Color {
	palette := make([]tcell.Color, 256)
	for i := range palette {
		palette[i] = tcell.PaletteColor(i)
	}
	return tcell.FindColor(c, palette)
}

func contrast(a, b tcell.Color) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + .05) / (min(x, y) + .05)
}

func luminance(c tcell.Color) float64 {
	r, g, b := c.RGB()
	lin := func(v int32) float64 {
		s := float64(v) / 255
		if s <= .03928 {
			return s / 12.92
		}
		return math.Pow((s+.055)/1.055, 2.4)
	}
	return .2126*lin(r) + .7152*lin(g) + .0722*lin(b)
}

func TestBackground(t *testing.T) {
	for v, want := range map[string]string{"15;0": "dark", "0;15": "light", "7;default;0": "dark", "": "auto", "12;x": "auto"} {
		if got := background(v); got != want {
			t.Errorf("COLORFGBG=%q: %s, want %s", v, got, want)
		}
	}
}

func TestLocale(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want bool
	}{
		{map[string]string{}, true}, {map[string]string{"LANG": "C"}, false}, {map[string]string{"LANG": "en_GB.UTF-8"}, true},
		{map[string]string{"LC_ALL": "POSIX", "LANG": "en_GB.UTF-8"}, false}, {map[string]string{"LC_CTYPE": "C.utf8", "LANG": "C"}, true},
	} {
		if got := utf8Locale(func(k string) string { return c.env[k] }); got != c.want {
			t.Errorf("%v: %v", c.env, got)
		}
	}
}
