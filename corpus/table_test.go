package corpus

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// sample is a table of two parts with every way of writing a key.
const sample = `underlay table 1
:part
language	go
files	2
bytes	120
source	std	1.26	BSD-3-Clause	2	120
note	invented
:symbol
(	3
Space	2
#	1
\\	1
:pair
)\s	4
{\n	2
:sits
(	wm	2
:next
x	\s:=	2
:part
language	shell
:symbol
$	5
`

func read(t *testing.T, text string) *Table {
	t.Helper()
	table, err := ReadTable("sample", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestReadAndWrite(t *testing.T) {
	first := read(t, sample)
	if got := first.Parts[0].Table.Counts(Pair)[") "]; got != 4 {
		t.Errorf("pair %q = %v, want 4", ") ", got)
	}
	if got := first.Share("$"); got != 5.0/12 {
		t.Errorf("share of $ = %v, want 5/12", got)
	}
	var out bytes.Buffer
	if err := first.Write(&out); err != nil {
		t.Fatal(err)
	}
	second := read(t, out.String())
	if diff := cmp.Diff(first, second, cmp.AllowUnexported(Table{}), cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("written and read again, the table differs:\n%s\n%s", diff, out.String())
	}
}

func TestFaultsSayWhereAndWhatToDo(t *testing.T) {
	text := strings.Replace(sample, "(\t3", "(\tmany", 1)
	text = strings.Replace(text, ":sits", ":sitz", 1)
	text = strings.Replace(text, "note\tinvented", "notes\tinvented", 1)
	text = strings.Replace(text, "BSD-3-Clause\t2\t120", "BSD-3-Clause\t2\tsome", 1)
	text = strings.Replace(text, `{\n`, `{\é`, 1)
	_, err := ReadTable("mine", strings.NewReader(text))
	faults, ok := err.(Faults)
	if !ok {
		t.Fatalf("error %v, want Faults", err)
	}
	var places []string
	for _, f := range faults {
		places = append(places, fmt.Sprintf("%d:%d", f.Line, f.Col))
		if f.File != "mine.tsv" || f.Hint == "" {
			t.Errorf("fault %+v: no file or no hint", f)
		}
	}
	if want := []string{"6:32", "7:1", "9:3", "15:1", "16:1"}; !cmp.Equal(places, want) {
		t.Errorf("faults at %v, want %v: %v", places, want, err)
	}
}

func TestMixIsByStrokes(t *testing.T) {
	parts := read(t, sample).Parts
	mix := Mix(Part{parts[0].Table, 3}, Part{parts[1].Table, 1})
	for symbol, want := range map[string]float64{"(": .75 * 3 / 7, "$": .25} {
		if got := mix.Share(symbol); math.Abs(got-want) > 1e-12 {
			t.Errorf("share of %s = %v, want %v", symbol, got, want)
		}
	}
	if got := mix.Strokes(); math.Abs(got-1) > 1e-12 {
		t.Errorf("strokes sum to %v, want 1", got)
	}
}

// spell puts the tokens of a line together, as the keys of section Line are.
func spell(line []Token) string {
	var b strings.Builder
	for _, t := range line {
		b.WriteString(t.String())
	}
	return b.String()
}

func TestTokensComeBack(t *testing.T) {
	for _, line := range []string{"if x != nil {", "x.X(x[0], \"s\")", "x := <-x", "-x::XX;"} {
		if got := spell(ParseLine(line)); got != line {
			t.Errorf("%q comes back as %q", line, got)
		}
	}
	got := ParseLine("x := X{x}")
	want := []Token{{"x", false}, {":=", true}, {"X", true}, {"{", false}, {"x", false}, {"}", false}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
