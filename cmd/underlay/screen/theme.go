package screen

import (
	"strings"

	"github.com/gdamore/tcell/v2"
)

// theme says what each look means on a terminal.
type theme struct {
	styles    [looks]tcell.Style
	plainText bool // only ASCII can be shown
}

// newTheme chooses a theme by what the person wants and the terminal can do.
// No look rests on colour alone.
func newTheme(o Options, colours int) theme {
	t := theme{styles: monochrome()}
	t.plainText = !utf8Locale(o.Env)
	want := o.Colours
	if o.Env("NO_COLOR") != "" || want == "none" || colours < 8 {
		return t
	}
	if want == "" || want == "auto" {
		want = background(o.Env("COLORFGBG"))
	}
	p := paletteFor(want, colours)
	t.styles[faint] = p.faint
	for l, c := range map[look]tcell.Color{accent: p.accent, target: p.accent, hold: p.accent, slip: p.slip, wrong: p.slip} {
		t.styles[l] = t.styles[l].Foreground(c)
	}
	return t
}

// monochrome is the base of all themes: attributes alone.
func monochrome() [looks]tcell.Style {
	d := tcell.StyleDefault
	return [looks]tcell.Style{
		plain:  d,
		strong: d.Bold(true),
		faint:  d.Dim(true),
		accent: d.Bold(true),
		target: d.Bold(true).Reverse(true),
		hold:   d.Bold(true),
		lit:    d.Bold(true),
		slip:   d.Bold(true),
		wrong:  d.Bold(true).Underline(true),
		chosen: d.Reverse(true),
	}
}

// palette holds the colours of a theme. The true colours are of the set that
// Okabe and Ito published in 2008 ("Color universal design"), which keeps
// apart for the common colour blindnesses; on a light ground its blue and its
// orange are darkened, to two that 256 colours have as well.
type palette struct {
	accent, slip tcell.Color
	faint        tcell.Style
}

func paletteFor(want string, colours int) palette {
	d := tcell.StyleDefault
	switch {
	case colours < 256 && want == "light":
		return palette{tcell.PaletteColor(4), tcell.PaletteColor(5), d.Dim(true)}
	case colours < 256:
		return palette{tcell.PaletteColor(6), tcell.PaletteColor(5), d.Dim(true)}
	case want == "auto": // not known: such as can be read on either ground
		return palette{tcell.NewHexColor(0x5f5fff), tcell.NewHexColor(0xaf5f5f), d.Dim(true)}
	case want == "light":
		return palette{tcell.NewHexColor(0x005faf), tcell.NewHexColor(0xaf5f00), d.Foreground(tcell.NewHexColor(0x6a6a6a))}
	}
	return palette{tcell.NewHexColor(0x56b4e9), tcell.NewHexColor(0xe69f00), d.Foreground(tcell.NewHexColor(0x8c8c8c))}
}

// background reads COLORFGBG, which some terminals set: the last number is the
// background's place among 16 colours.
func background(v string) string {
	switch v[strings.LastIndexByte(v, ';')+1:] {
	case "0", "1", "2", "3", "4", "5", "6", "8":
		return "dark"
	case "7", "15":
		return "light"
	}
	return "auto"
}

// utf8Locale tells whether the locale is one of UTF-8, in the order in which
// POSIX has the variables. Nothing set is taken for a modern system.
func utf8Locale(env func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToLower(env(name)); v != "" {
			return strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return true
}
