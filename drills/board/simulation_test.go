package board_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/unicode/norm"

	"underlay/drills/board"
)

// simulation is a board played key by key. It reads the file by itself and
// shares no code with the package, so that both can be held against each other.
type simulation struct {
	layers []simulatedLayer
	combos []simulatedCombo
	glyphs keysyms // the OS layout as published, by grid key
	codes  map[string]string
	order  []string // the keys of glyphs
	names  map[string]string

	held    map[string]string // position → what it holds: a layer's name or a modifier
	latched string
	locked  map[string]bool
	stay    string
	dead    string
}

type simulatedLayer struct {
	name string
	when []string
	keys map[string]string // position → entry
}

type simulatedCombo struct {
	keys         []string
	gives, layer string
}

func simulate(t interface{ Fatal(...any) }, src []byte, glyphs keysyms, codes map[string]string) *simulation {
	var file struct {
		Layer []struct {
			Name, Keys string
			When       []string
		}
		Combo []struct {
			Keys         []string
			Gives, Layer string
		}
	}
	if err := toml.Unmarshal(src, &file); err != nil {
		t.Fatal(err)
	}
	s := &simulation{glyphs: glyphs, codes: codes}
	for _, l := range file.Layer {
		layer := simulatedLayer{l.Name, l.When, map[string]string{}}
		row := 0
		for line := range strings.SplitSeq(l.Keys, "\n") {
			words := strings.Fields(strings.ReplaceAll(" "+line+" ", " || ", " "))
			if len(words) == 0 {
				continue
			}
			row++
			for i, w := range words {
				layer.keys[fmt.Sprintf("r%dc%d", row, i+1)] = w
			}
		}
		s.layers = append(s.layers, layer)
	}
	for _, c := range file.Combo {
		slices.Sort(c.Keys)
		s.combos = append(s.combos, simulatedCombo{c.Keys, c.Gives, c.Layer})
	}
	s.order, s.names = s.gridOrder(), keysymASCII()
	s.rest()
	return s
}

func (s *simulation) rest() {
	s.held, s.locked, s.latched, s.stay, s.dead = map[string]string{}, map[string]bool{}, "", s.layers[0].name, ""
}

// active are the layers from the top down.
func (s *simulation) active() []simulatedLayer {
	on := map[string]bool{}
	for _, h := range s.held {
		on[h] = true
	}
	for l := range s.locked {
		on[l] = true
	}
	on[s.latched] = true
	for range s.layers {
		for _, l := range s.layers {
			all := len(l.when) > 0
			for _, w := range l.when {
				all = all && on[w]
			}
			on[l.name] = on[l.name] || all
		}
	}
	var out []simulatedLayer
	for i := len(s.layers) - 1; i > 0; i-- {
		if on[s.layers[i].name] && s.layers[i].name != s.stay {
			out = append(out, s.layers[i])
		}
	}
	for _, l := range s.layers[1:] {
		if l.name == s.stay {
			out = append(out, l)
		}
	}
	return append(out, s.layers[0])
}

// means looks a key up, and parts its tap from its hold.
func (s *simulation) means(position string) (tap, hold string) {
	entry := "--"
	for _, l := range s.active() {
		if entry = l.keys[position]; entry != ".." {
			break
		}
	}
	if i := strings.LastIndex(entry[:len(entry)-1], "/"); i > 0 {
		return entry[:i], entry[i+1:]
	}
	return entry, ""
}

var modifierNames = map[string]string{"Control": "Control", "Alt": "Alt", "Shift": "Shift", "Meta": "Meta", "AltGraph": "AltGraph",
	"ControlLeft": "Control", "ControlRight": "Control", "ShiftLeft": "Shift", "ShiftRight": "Shift", "AltLeft": "Alt", "MetaLeft": "Meta", "MetaRight": "Meta"}

func (s *simulation) modifier(name string) string {
	if name == "AltRight" {
		if len(s.glyphs["AE01"][2]) > 0 { // a layout with a third level has AltGraph there
			return "AltGraph"
		}
		return "Alt"
	}
	return modifierNames[name]
}

// play does a stroke from rest and returns what the computer receives.
func (s *simulation) play(stroke board.Stroke) (received []string, err error) {
	s.rest()
	for i := 0; i < len(stroke.Keys); i++ {
		p := stroke.Keys[i]
		position, last := p.Position.String(), i == len(stroke.Keys)-1
		if s.held[position] != "" {
			return nil, fmt.Errorf("%s is held and pressed", position)
		}
		tap, hold := s.means(position)
		what, latched := tap, s.latched
		switch p.As {
		case board.AsCombo:
			var keys []string
			for ; i < len(stroke.Keys) && stroke.Keys[i].As == board.AsCombo; i++ {
				keys = append(keys, stroke.Keys[i].Position.String())
			}
			i--
			what = s.combo(keys)
		case board.AsTap:
			if hold == "" {
				return nil, fmt.Errorf("%s is tapped, but has one meaning", position)
			}
		case board.AsHold:
			if hold != "" {
				what = hold
			}
			if m := s.modifier(what); m != "" {
				s.held[position] = m
				continue
			}
			if layer, ok := strings.CutSuffix(what, ":hold"); ok && !last {
				s.held[position] = layer
				s.latched = ""
				continue
			}
			if hold == "" || !last {
				return nil, fmt.Errorf("%s is held, but holds nothing", position)
			}
		default:
			if hold != "" && p.As == board.AsPress {
				return nil, fmt.Errorf("%s is pressed, but has two meanings", position)
			}
		}
		if err := s.tap(what, p.As, &received); err != nil {
			return nil, fmt.Errorf("%s: %w", position, err)
		}
		if s.latched == latched {
			s.latched = ""
		}
		s.held = map[string]string{}
	}
	return received, nil
}

func (s *simulation) combo(keys []string) string {
	slices.Sort(keys)
	gives := "--"
	for _, c := range s.combos {
		if !slices.Equal(c.keys, keys) {
			continue
		}
		if c.layer == s.active()[0].name {
			return c.gives
		}
		if c.layer == "" {
			gives = c.gives
		}
	}
	return gives
}

func (s *simulation) tap(what string, as board.As, received *[]string) error {
	layer, way, isWay := strings.Cut(what, ":")
	isWay = isWay && layer != "" && way != ""
	switch {
	case what == "--" || what == "..":
		return fmt.Errorf("nothing there")
	case s.modifier(what) != "":
		return fmt.Errorf("a modifier alone gives nothing")
	case isWay && string(as) != way:
		return fmt.Errorf("%q done as %s", what, as)
	case isWay && way == "latch":
		s.latched = layer
	case isWay && way == "lock":
		s.locked[layer] = !s.locked[layer]
		if !s.locked[layer] {
			delete(s.locked, layer)
		}
	case isWay && way == "stay":
		s.stay = layer
	case isWay:
		return fmt.Errorf("%q cannot be tapped", what)
	default:
		if got := s.receive(what); got != "" {
			*received = append(*received, got)
		}
	}
	return nil
}

// receive is what the computer makes of one key with the modifiers that are held.
func (s *simulation) receive(entry string) string {
	mods := map[string]bool{}
	for _, h := range s.held {
		mods[h] = true
	}
	shift := mods["Shift"]
	out := entry
	switch {
	case strings.HasPrefix(entry, "<") && len(entry) > 1:
		return strings.ReplaceAll(entry, "!", "")
	case utf8.RuneCountInString(entry) == 1:
		out, shift = s.character(entry, shift, mods["AltGraph"]), false
	default:
		if key := s.gridKey(entry); key != "" {
			out, shift = s.level(key, shift, mods["AltGraph"]), false
			if strings.HasPrefix(out, "dead_") {
				s.dead = out
				return ""
			}
		} else if strings.Contains(entry, "+") {
			shift = false // a chord's own modifiers stand
		}
	}
	if s.dead != "" {
		out = compose(s.dead, out)
		s.dead = ""
	}
	var prefix strings.Builder
	for _, m := range []string{"Control", "Alt", "Shift", "Meta"} {
		if mods[m] && (m != "Shift" || shift) {
			prefix.WriteString(m + "+")
		}
	}
	return prefix.String() + out
}

func (s *simulation) gridKey(code string) string {
	for key, c := range s.codes {
		if c == code && code != "Space" {
			return key
		}
	}
	return ""
}

func (s *simulation) level(key string, shift, altGraph bool) string {
	n := 0
	if shift {
		n |= 1
	}
	if altGraph && s.modifier("AltRight") == "AltGraph" {
		n |= 2
	}
	sym := s.glyphs[key][n]
	if strings.HasPrefix(sym, "dead_") {
		return sym
	}
	return s.charOf(key, n)
}

// charOf is the character of a keysym, as far as ASCII goes.
func (s *simulation) charOf(key string, level int) string {
	sym := s.glyphs[key][level]
	if len(sym) == 1 {
		return sym
	}
	if c, ok := s.names[sym]; ok {
		return c
	}
	return "\ufffd" + sym // no ASCII: not compared
}

// character is what a key that sends a character gives with Shift or AltGraph:
// what the OS layout has above it, unless the key sends that modifier already.
func (s *simulation) character(char string, shift, altGraph bool) string {
	altGraph = altGraph && s.modifier("AltRight") == "AltGraph"
	for _, at := range s.search() {
		key, level := s.order[at/4], at%4
		if level > 1 && s.modifier("AltRight") != "AltGraph" || s.charOf(key, level) != char {
			continue
		}
		up := level
		if shift && level&1 == 0 {
			up |= 1
		}
		if altGraph && level&2 == 0 {
			up |= 2
		}
		if up == level {
			return char
		}
		return s.charOf(key, up)
	}
	return char
}

// search is the order in which a board looks for a character: without AltGraph
// before with it, the extra key of ISO boards after the others, plain before
// Shift. Each number is the key's place in the order of the grid and the level.
func (s *simulation) search() []int {
	n := len(s.order) - 1
	var out []int
	for _, levels := range [][]int{{0, 1}, {2, 3}} {
		for _, level := range levels {
			for key := range n {
				out = append(out, 4*key+level)
			}
		}
		out = append(out, 4*n+levels[0], 4*n+levels[1])
	}
	return out
}

// gridOrder goes through the rows from the number row down, the extra key of
// ISO boards last.
func (s *simulation) gridOrder() []string {
	var keys []string
	for key := range s.glyphs {
		keys = append(keys, key)
	}
	order := func(k string) string { return map[string]string{"TLDE": "0", "BKSL": "AD99", "LSGT": "Z"}[k] + k }
	row := map[byte]string{'E': "0", 'D': "1", 'C': "2", 'B': "3"}
	slices.SortFunc(keys, func(a, b string) int {
		ka, kb := order(a), order(b)
		if len(a) == 4 && a[0] == 'A' {
			ka = "1" + row[a[1]] + a
		}
		if len(b) == 4 && b[0] == 'A' {
			kb = "1" + row[b[1]] + b
		}
		return strings.Compare(ka, kb)
	})
	return keys
}

// compose is what a dead key makes of the next symbol: Unicode's composition,
// and with Space the mark itself.
func compose(dead, next string) string {
	mark := map[string]string{"dead_grave": "\u0300", "dead_acute": "\u0301", "dead_circumflex": "\u0302", "dead_tilde": "\u0303", "dead_macron": "\u0304",
		"dead_breve": "\u0306", "dead_abovedot": "\u0307", "dead_diaeresis": "\u0308", "dead_hook": "\u0309", "dead_abovering": "\u030a", "dead_doubleacute": "\u030b",
		"dead_caron": "\u030c", "dead_horn": "\u031b", "dead_belowdot": "\u0323", "dead_cedilla": "\u0327", "dead_ogonek": "\u0328", "dead_belowmacron": "\u0331"}[dead]
	if next == "Space" {
		return map[string]string{"dead_grave": "`", "dead_circumflex": "^", "dead_tilde": "~"}[dead]
	}
	return norm.NFC.String(next + mark)
}

// roundTrip replays every stroke of every symbol that the simulation can name.
func roundTrip(t interface {
	Fatal(...any)
	Errorf(string, ...any)
}, b *board.Board, glyphs keysyms, codes map[string]string) int {
	s := simulate(t, b.Source(), glyphs, codes)
	n := 0
	for _, sym := range b.Symbols() {
		if _, key, _ := sym.Chord(); !ascii(string(key)) && !strings.HasPrefix(string(sym), "<") {
			continue // only the keysyms of ASCII have a character here
		}
		for _, stroke := range b.Strokes(sym) {
			got, err := s.play(stroke)
			if err != nil || len(got) != 1 || got[0] != string(sym) {
				t.Errorf("%s: %s by %s gives %q, %v", b.Name, sym, stroke, got, err)
			}
			if again, err := board.ParseStroke(stroke.String()); err != nil || !again.Equal(stroke) {
				t.Errorf("%s does not read back: %v", stroke, err)
			}
			n++
		}
	}
	return n
}

func ascii(s string) bool {
	for _, r := range s {
		if r > '~' {
			return false
		}
	}
	return true
}

func TestEveryStrokeGivesItsSymbol(t *testing.T) {
	for _, name := range board.Embedded() {
		for _, layout := range board.OSLayouts() {
			glyphs, codes := published(t, layout)
			b := standard(t, name, layout)
			if n := roundTrip(t, b, glyphs, codes); n < 200 {
				t.Errorf("%s under %s: only %d strokes", name, layout, n)
			}
		}
	}
}
