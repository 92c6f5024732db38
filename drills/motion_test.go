package drills

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"underlay/assets"
	"underlay/drills/board"
)

// The motions that the standard allows after an operator: IEEE Std 1003.1,
// vi, "Motion" (2003 edition, from its manual page). ^H is left out, since a
// terminal does not tell it from Backspace.
const standardMotions = "' ` , ; ( ) [[ ]] { } ^ $ % _ | 0 / ? + - b B e E f F G h H j k l L M n N t T w W Space Enter Control+n Control+p"

// Its operators, the same source.
const standardOperators = "! < > c d y"

// Commands without a motion: first those that the same source gives with what
// they are equal to or take, then the others and the ex commands after a colon,
// from memory of vi, "Commands in Command Mode", and ex.
const standardCommands = `C D s S Y A I ~ ` +
	`i a o O R x X r J p P u U . & m " @ z Z : Control+b Control+d Control+e Control+f Control+g Control+l Control+u Control+y Control+]`

// Pairs of a command and one that does the same, the same source; the doubled
// operators are its "whole lines", which it calls _ as a motion.
const standardEquals = "C=c$ D=d$ s=cSpace S=c_ Y=y_ A=$a I=^i Y=yy S=cc"

// What editors have beyond the standard, the same source: the beginnings of
// commands. Control+r redraws in the standard and takes nothing back, so no
// drill asks for it.
const beyondStandard = "g v V Control+v * # Control+r"

func readEmbedded(t testing.TB) *motions {
	t.Helper()
	src, err := fs.ReadFile(assets.FS(), "motions.toml")
	if err != nil {
		t.Fatal(err)
	}
	m, err := readMotions(src)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestMotionsAreStandard(t *testing.T) {
	m := readEmbedded(t)
	for _, x := range m.Motion {
		if name := joined(x.Keys); !slices.Contains(strings.Fields(standardMotions), name) {
			t.Errorf("motion %s is not in the standard", name)
		}
		if x.Goes == "" && x.GoesMany == "" {
			t.Errorf("motion %s is not told", joined(x.Keys))
		}
	}
	for _, x := range m.Operator {
		if name := joined(x.Keys); !slices.Contains(strings.Fields(standardOperators), name) {
			t.Errorf("operator %s is not in the standard", name)
		}
	}
	for _, x := range m.Command {
		if name := string(x.Keys[0]); !slices.Contains(strings.Fields(standardCommands), name) {
			t.Errorf("command %s is not in the standard", name)
		}
		for _, e := range x.Equal {
			if both := joined(x.Keys) + "=" + joined(e); !slices.Contains(strings.Fields(standardEquals), both) {
				t.Errorf("%s: the standard does not say that they do the same", both)
			}
		}
	}
	for name := range strings.FieldsSeq(standardMotions) {
		if !slices.ContainsFunc(m.Motion, func(x movement) bool { return joined(x.Keys) == name }) {
			t.Errorf("the standard's motion %s is never drilled", name)
		}
	}
}

func joined(k keys) string {
	var b strings.Builder
	for _, s := range k {
		b.WriteString(string(s))
	}
	return b.String()
}

// All that is drilled, and each equal form, is what the standard's grammar
// reads: counts, operators, motions and what they take.
func TestEditsParse(t *testing.T) {
	g := generator(t, "ansi-61", "go", "keys")
	wanted := []map[board.Symbol]float64{nil, {"}": 1, "$": 1}, {"Escape": 1, "%": 1}, {"#": 1, "*": 1, "@": 1}}
	for seed := range uint64(3000) {
		d, err := g.Generate(Motion, wanted[seed%4], seed)
		if err != nil {
			t.Fatal(err)
		}
		if err := parseEdits(d.Symbols()); err != nil {
			t.Fatalf("%v: %v", d, err)
		}
		for _, note := range d.Notes {
			if note == "" || strings.Contains(note, "{") && !strings.Contains(d.String(), "{") {
				t.Errorf("%v: notes %q", d, d.Notes)
			}
		}
		if n := len(d.Groups()); n != len(d.Notes) {
			t.Errorf("%v: %d commands and %d notes, %q", d, n, len(d.Notes), d.Notes)
		}
		for i, f := range d.Also {
			if err := parseEdits(d.With(i).Symbols()); err != nil {
				t.Fatalf("%v, equal form %v: %v", d, f.Prompt, err)
			}
		}
	}
}

// No command begins as one that only other editors have, and the grammar below
// reads none, nor a text object or a motion of theirs after an operator.
func TestNothingBeyondTheStandard(t *testing.T) {
	for name := range strings.FieldsSeq(beyondStandard) {
		if err := parseEdits([]board.Symbol{board.Symbol(name), "w"}); err == nil {
			t.Errorf("%s is read as a command", name)
		}
	}
	for _, keys := range [][]board.Symbol{{"d", "i", "w"}, {"c", "i", "(", "Escape"}, {"y", "a", "w"}, {"d", "g", "g"}, {"d", "g", "e"}, {"y", "g", "_"}, {"~", "g"}} {
		if err := parseEdits(keys); err == nil {
			t.Errorf("%s is read as a command", joined(keys))
		}
	}
}

// The forms that the standard says do the same are all offered.
func TestEqualFormsAreTheStandards(t *testing.T) {
	want := map[string]bool{}
	for both := range strings.FieldsSeq(standardEquals) {
		want[both] = true
	}
	g := generator(t, "ansi-61", "go", "keys")
	for seed := range uint64(3000) {
		d, err := g.Generate(Motion, nil, seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range d.Also {
			short, long := plainForm(d.Symbols()[f.At:f.At+f.Len]), plainForm(Drill{Keys: f.Keys}.Symbols())
			delete(want, short+"="+long)
			if both := short + " " + long; both == "Y y$" || both == "y$ Y" {
				t.Errorf("%v: Y takes whole lines, not the rest of one", d)
			}
		}
	}
	for form := range want {
		t.Errorf("%s was never offered", form)
	}
}

// plainForm writes a command without the text that follows it.
func plainForm(symbols []board.Symbol) string {
	s := strings.TrimSuffix(joined(symbols), "Escape")
	if s != joined(symbols) {
		for s != "" && 'a' <= s[len(s)-1] && s[len(s)-1] <= 'z' && len(s) > 1 && s != "cSpace" && s != "$a" && s != "^i" && s != "cc" {
			s = s[:len(s)-1]
		}
	}
	return s
}

// parseEdits reads a row of commands by the standard's grammar.
func parseEdits(in []board.Symbol) error {
	for len(in) > 0 {
		rest, err := parseEdit(in)
		if err != nil {
			return err
		}
		in = rest
	}
	return nil
}

func parseEdit(in []board.Symbol) ([]board.Symbol, error) {
	in = skipCount(in)
	if len(in) == 0 {
		return nil, fmt.Errorf("a count with nothing after it")
	}
	op := string(in[0])
	if !slices.Contains(strings.Fields(standardOperators), op) {
		if rest, err := parseMotion(in); err == nil {
			return rest, nil
		}
		return parseCommand(in)
	}
	rest := skipCount(in[1:])
	switch {
	case len(rest) > 0 && string(rest[0]) == op:
		rest = rest[1:]
	default:
		var err error
		if rest, err = parseMotion(rest); err != nil {
			return nil, fmt.Errorf("after %s: %w", op, err)
		}
	}
	switch op {
	case "c":
		return until(rest, board.Escape)
	case "!":
		return until(rest, board.Enter)
	}
	return rest, nil
}

func skipCount(in []board.Symbol) []board.Symbol {
	for i, s := range in {
		if len(s) != 1 || s[0] < '0' || s[0] > '9' || i == 0 && s == "0" {
			return in[i:]
		}
	}
	return nil
}

func parseMotion(in []board.Symbol) ([]board.Symbol, error) {
	if len(in) == 0 {
		return nil, fmt.Errorf("no motion")
	}
	name, rest := string(in[0]), in[1:]
	if (name == "[" || name == "]") && len(rest) > 0 && rest[0] == in[0] {
		name, rest = name+name, rest[1:]
	}
	if !slices.Contains(strings.Fields(standardMotions), name) {
		return nil, fmt.Errorf("%s is no motion", name)
	}
	switch name {
	case "f", "F", "t", "T", "'", "`":
		if len(rest) == 0 || len(rest[0]) != 1 {
			return nil, fmt.Errorf("%s without a character", name)
		}
		return rest[1:], nil
	case "/", "?":
		return until(rest, board.Enter)
	}
	return rest, nil
}

func parseCommand(in []board.Symbol) ([]board.Symbol, error) {
	name, rest := string(in[0]), in[1:]
	if !slices.Contains(strings.Fields(standardCommands), name) {
		return nil, fmt.Errorf("%s is no command", name)
	}
	switch name {
	case "i", "a", "A", "I", "o", "O", "R", "C", "S", "s":
		return until(rest, board.Escape)
	case "r", "m", "@", "z":
		return rest[1:], nil
	case `"`:
		return parseEdit(rest[1:])
	case "Z":
		if rest[0] != "Z" {
			return nil, fmt.Errorf("Z%s", rest[0])
		}
		return rest[1:], nil
	case ":":
		return until(rest, board.Enter)
	}
	return rest, nil
}

func until(in []board.Symbol, end board.Symbol) ([]board.Symbol, error) {
	i := slices.Index(in, end)
	if i < 0 {
		return nil, fmt.Errorf("no %s at the end", end)
	}
	return in[i+1:], nil
}

func TestMotionsFile(t *testing.T) {
	for text, want := range map[string]string{
		"[[motion]]\nkeys = \"w\"\ngoes = \"on\"\nspeed = 3": "speed",
		"[[motion]]\nkeys = \"\"":                            "no keys",
		"[[motion]\n":                                        "motions.toml",
	} {
		if _, err := readMotions([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want an error with %q", text, err, want)
		}
	}
}
