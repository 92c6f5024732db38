package board_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"underlay/drills/board"
)

// keysyms are the symbols of a layout by ISO/IEC 9995-1 grid key as X.Org
// writes them (TLDE, AE01 …), in the order of the levels.
type keysyms map[string][]string

// published reads a table of testdata/published/xkb, which holds what
// libxkbcommon makes of xkb-data 2.35.1; codes are the W3C codes of the keys.
func published(t *testing.T, layout string) (table keysyms, codes map[string]string) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "testdata", "published", "xkb", layout+".tsv"))
	if err != nil {
		t.Fatal(err)
	}
	table, codes = keysyms{}, map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(string(src)), "\n")[2:] {
		row := strings.Split(line, "\t")
		table[row[0]] = row[3:7]
		codes[row[0]] = row[1]
	}
	return table, codes
}

// keysymASCII are the X.Org names of the printable ASCII characters that are
// not letters or digits, which name themselves (X11/keysymdef.h, from memory).
func keysymASCII() map[string]string {
	names := strings.Fields("exclam quotedbl numbersign dollar percent ampersand apostrophe parenleft parenright asterisk plus comma minus period slash " +
		"colon semicolon less equal greater question at bracketleft backslash bracketright asciicircum underscore grave braceleft bar braceright asciitilde")
	chars := "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"
	m := map[string]string{}
	for i, n := range names {
		m[n] = chars[i : i+1]
	}
	return m
}

// spot is a key by its W3C code and a level, counted from 0; dead where the
// character takes a dead key there and then Space.
type spot struct {
	code  string
	level int
	dead  bool
}

// spots finds every way to an ASCII character in an X.Org table.
func (table keysyms) spots(codes map[string]string, char string, altGraph bool) []spot {
	names := keysymASCII()
	dead := map[string]string{"^": "dead_circumflex", "`": "dead_grave", "~": "dead_tilde"}
	var out []spot
	for key, syms := range table {
		if !altGraph {
			syms = syms[:min(2, len(syms))]
		}
		for level, s := range syms {
			if slices.Contains(syms[:level], s) {
				continue
			}
			switch {
			case s == char || names[s] == char || s == "space" && char == " ":
				out = append(out, spot{codes[key], level, false})
			case s != "" && s == dead[char]:
				out = append(out, spot{codes[key], level, true})
			}
		}
	}
	return out
}

// onBoard leaves out the keys that the board does not have.
func onBoard(b *board.Board, all []spot) []spot {
	has := map[string]bool{}
	for _, k := range b.Keys() {
		has[k.Code] = true
	}
	return slices.DeleteFunc(all, func(s spot) bool { return !has[s.code] })
}

// ways are the spots of a board's own strokes on its base layer.
func ways(b *board.Board, s board.Symbol) []spot {
	var out []spot
	for _, stroke := range b.Strokes(s) {
		var presses []board.Press
		for _, p := range stroke.Keys {
			if p.As == board.AsPress {
				presses = append(presses, p)
			}
		}
		out = append(out, spot{presses[0].Code, stroke.Level, len(presses) == 2})
	}
	slices.SortFunc(out, func(x, y spot) int { return strings.Compare(fmt.Sprint(x), fmt.Sprint(y)) })
	return slices.Compact(out)
}

// TestStandardBoardsAgreeWithXOrg holds positions and levels, dead keys
// included, against X.Org's tables: every way there, and no other.
func TestStandardBoardsAgreeWithXOrg(t *testing.T) {
	for _, c := range []struct{ board, layout string }{
		{"iso-62", "us"}, {"iso-62", "gb"}, {"iso-62", "de"}, {"iso-62", "fr"}, {"iso-62", "es"}, {"iso-62", "se"}, {"ansi-61", "us"},
	} {
		t.Run(c.board+" "+c.layout, func(t *testing.T) {
			b := standard(t, c.board, c.layout)
			table, codes := published(t, c.layout)
			for r := ' '; r <= '~'; r++ {
				want := onBoard(b, table.spots(codes, string(r), c.layout != "us"))
				slices.SortFunc(want, func(x, y spot) int { return strings.Compare(fmt.Sprint(x), fmt.Sprint(y)) })
				got := ways(b, board.SymbolOf(r))
				if !slices.Equal(got, want) || len(got) == 0 {
					t.Errorf("%q is at %v, X.Org has %v", r, got, want)
				}
			}
		})
	}
}

func standard(t *testing.T, name, layout string) *board.Board {
	t.Helper()
	b, err := board.Load(name)
	if err == nil {
		b, err = b.WithOSLayout(layout)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestDeadKeysFromXOrg: which keys are dead, by the published tables.
func TestDeadKeysFromXOrg(t *testing.T) {
	b := standard(t, "iso-62", "es")
	table, codes := published(t, "es")
	for key, syms := range table {
		for _, k := range b.Keys() {
			if k.Code != codes[key] {
				continue
			}
			for level, s := range syms {
				want := strings.HasPrefix(s, "dead_")
				if got := b.LegendAt("base", level, k.Position).Dead; got != want {
					t.Errorf("%s level %d: dead is %v, X.Org has %s", k.Code, level, got, s)
				}
			}
		}
	}
}

// TestPublishedTablesAreThoseInstalled compares the copies with the symbol
// files of an installed xkb-data, as far as ASCII goes.
func TestPublishedTablesAreThoseInstalled(t *testing.T) {
	root := "/usr/share/X11/xkb/symbols"
	if _, err := os.Stat(root); err != nil {
		t.Skip("xkb-data is not installed; the published copies stand alone")
	}
	for _, layout := range []string{"us", "gb", "de", "fr", "es", "se"} {
		live := keysyms{}
		live.include(t, root, layout)
		table, codes := published(t, layout)
		for r := '!'; r <= '~'; r++ {
			want, got := live.spots(codes, string(r), layout != "us"), table.spots(codes, string(r), layout != "us")
			for _, s := range want {
				if s.code != "" && !slices.Contains(got, s) {
					t.Errorf("%s: %q is at %v in the installed file, the published copy has %v", layout, r, s, got)
				}
			}
			if len(want) == 0 {
				t.Errorf("%s: nothing gives %q in the installed file", layout, r)
			}
		}
	}
}

// include reads one layout of an X.Org symbol file, such as "de" or
// "latin(type4)", over what is there already.
func (table keysyms) include(t *testing.T, root, name string) {
	t.Helper()
	file, variant, _ := strings.Cut(strings.TrimSuffix(name, ")"), "(")
	src, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	text := regexp.MustCompile(`//[^\n]*`).ReplaceAllString(string(src), "")
	start := regexp.MustCompile(`default[^{]*xkb_symbols\s+"[^"]*"\s*\{`)
	if variant != "" {
		start = regexp.MustCompile(`xkb_symbols\s+"` + regexp.QuoteMeta(variant) + `"\s*\{`)
	}
	at := start.FindStringIndex(text)
	if at == nil {
		t.Fatalf("%s has no section %q", file, variant)
	}
	body := text[at[1]:]
	if end := strings.Index(body, "xkb_symbols"); end >= 0 {
		body = body[:end]
	}
	statement := regexp.MustCompile(`include\s+"([^"]*)"|key\s+<(\w+)>\s*\{([^}]*)\}`)
	list := regexp.MustCompile(`\[([^\]]*)\]`)
	for _, m := range statement.FindAllStringSubmatch(body, -1) {
		if m[1] != "" {
			if !strings.HasPrefix(m[1], "level3") && !strings.HasPrefix(m[1], "kpdl") {
				table.include(t, root, m[1])
			}
			continue
		}
		for _, l := range list.FindAllStringSubmatch(m[3], -1) {
			if !strings.HasPrefix(strings.ToLower(strings.TrimSpace(l[1])), "group") {
				table.override(m[2], l[1])
			}
		}
	}
}

// override lays new symbols over a key's old ones; those that are not given stay.
func (table keysyms) override(key, list string) {
	old := slices.Clone(table[key])
	for i, s := range strings.Split(list, ",") {
		if s = strings.TrimSpace(s); i >= len(old) {
			old = append(old, s)
		} else if s != "NoSymbol" {
			old[i] = s
		}
	}
	for len(old) < 4 {
		old = append(old, "")
	}
	table[key] = old
}
