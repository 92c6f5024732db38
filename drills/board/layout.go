package board

import (
	"fmt"
	"io/fs"
	"path"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/unicode/norm"

	"underlay/assets"
)

// osLayout says what each key of the standard keyboard gives on a computer
// set to it.
type osLayout struct {
	name, title string
	altGraph    bool
	keys        map[string][4]glyph // by W3C code; by level: plain, Shift, AltGraph, both
	at          map[Symbol]spot     // where a character is given, the lowest level first
}

// glyph is what one key gives at one level: a character, a dead key's
// combining mark, or nothing (both zero).
type glyph struct {
	char Symbol
	dead rune
}

type spot struct {
	code  string
	level int
}

// OSLayouts returns the names of the OS layouts that boards may be read with.
func OSLayouts() []string {
	files, _ := fs.Glob(assets.FS(), "oslayouts/*.toml")
	for i, f := range files {
		files[i] = strings.TrimSuffix(path.Base(f), ".toml")
	}
	return files
}

// OSLayoutTitle returns what an OS layout is called in English; "" for one that
// is not there.
func OSLayoutTitle(name string) string {
	l, err := loadOSLayout(name)
	if err != nil {
		return ""
	}
	return l.title
}

func loadOSLayout(name string) (*osLayout, error) {
	src, err := fs.ReadFile(assets.FS(), "oslayouts/"+name+".toml")
	if err != nil {
		return nil, fmt.Errorf("no OS layout is named %q", name)
	}
	var file struct {
		Name, Title string
		AltGraph    bool
		Keys        string
	}
	if err := toml.Unmarshal(src, &file); err != nil {
		return nil, fmt.Errorf("OS layout %s: %w", name, err)
	}
	l := &osLayout{name: file.Name, title: file.Title, altGraph: file.AltGraph,
		keys: map[string][4]glyph{}, at: map[Symbol]spot{}}
	for line := range strings.Lines(file.Keys) {
		if err := l.addKey(strings.Fields(line)); err != nil {
			return nil, fmt.Errorf("OS layout %s: %w", name, err)
		}
	}
	l.index(file.Keys)
	return l, nil
}

func (l *osLayout) addKey(fields []string) error {
	if len(fields) == 0 {
		return nil
	}
	var levels [4]glyph
	for i, f := range fields[1:min(len(fields), 5)] {
		mark, dead := strings.CutPrefix(f, "dead-")
		switch {
		case dead:
			levels[i].dead = combiningMark(mark)
			if levels[i].dead == 0 {
				return fmt.Errorf("key %s: unknown dead key %q", fields[0], f)
			}
		case f == "--":
		case utf8.RuneCountInString(f) == 1:
			levels[i].char = SymbolOf([]rune(f)[0])
		default:
			return fmt.Errorf("key %s: %q is no single character", fields[0], f)
		}
	}
	if !l.altGraph {
		levels[2], levels[3] = glyph{}, glyph{}
	}
	l.keys[fields[0]] = levels
	return nil
}

// index notes where each character is sent from: the lowest level first, but
// IntlBackslash, which not every keyboard has, only before AltGraph is needed.
func (l *osLayout) index(keys string) {
	var codes []string
	for line := range strings.Lines(keys) {
		if f := strings.Fields(line); len(f) > 0 && f[0] != "IntlBackslash" {
			codes = append(codes, f[0])
		}
	}
	for _, half := range [][2]int{{0, 1}, {2, 3}} {
		for _, level := range half {
			for _, code := range codes {
				l.note(code, level)
			}
		}
		l.note("IntlBackslash", half[0])
		l.note("IntlBackslash", half[1])
	}
}

func (l *osLayout) note(code string, level int) {
	c := l.keys[code][level].char
	if _, there := l.at[c]; c != "" && !there {
		l.at[c] = spot{code, level}
	}
}

// combiningMark returns the Unicode combining character that a dead key of
// that X.Org keysym name (less "dead_") puts on the next letter; 0 if unknown.
func combiningMark(name string) rune {
	return map[string]rune{
		"grave": 0x300, "acute": 0x301, "circumflex": 0x302, "tilde": 0x303, "macron": 0x304, "breve": 0x306,
		"abovedot": 0x307, "diaeresis": 0x308, "hook": 0x309, "abovering": 0x30A, "doubleacute": 0x30B, "caron": 0x30C,
		"horn": 0x31B, "belowdot": 0x323, "cedilla": 0x327, "ogonek": 0x328, "belowmacron": 0x331,
	}[name]
}

// deadSpace returns the character that a dead key and Space give: only those
// on which computers agree, the three that ASCII has as spacing characters.
func deadSpace(mark rune) (Symbol, bool) {
	switch mark {
	case 0x300:
		return "`", true
	case 0x302:
		return "^", true
	case 0x303:
		return "~", true
	}
	return "", false
}

// deadLetter returns the letter that a dead key and a letter give: their
// canonical composition, where Unicode has one.
func deadLetter(mark rune, letter Symbol) (Symbol, bool) {
	s := norm.NFC.String(string(letter) + string(mark))
	return Symbol(s), utf8.RuneCountInString(s) == 1 && s != string(letter)
}

// above returns what a character's key gives at a level that holding Shift
// (1), AltGraph (2) or both (3) adds to the modifiers the key already sends.
// It is false where it sends one of them already, or the layout has nothing
// else there.
func (l *osLayout) above(char Symbol, level int) (Symbol, bool) {
	s, ok := l.at[char]
	if !ok || s.level&level != 0 {
		return "", false
	}
	c := l.keys[s.code][s.level|level].char
	return c, c != "" && c != char
}

// has reports whether the layout gives the character without a dead key.
func (l *osLayout) has(char Symbol) bool { _, ok := l.at[char]; return ok }
