package corpus

import (
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"underlay/corpus/code"
)

// plainly counts a code view in the plainest way: by line, with strings, maps
// and regular expressions.
func plainly(view string) map[Section]Counts {
	out := map[Section]Counts{Symbol: {}, Pair: {}, Triple: {}, Run: {}}
	var strokes []rune // of the whole source, with 0 for what is left out
	lines := strings.Split(view, "\n")
	spaces, marks := regexp.MustCompile(`[ \t\r\f]+`), regexp.MustCompile("[!-/:-@[-`{-~]+")
	for i, line := range lines {
		line = strings.Trim(spaces.ReplaceAllString(line, " "), " ")
		strokes = append(strokes, []rune(line)...)
		if i < len(lines)-1 {
			strokes = append(strokes, '\n')
		}
		for _, run := range marks.FindAllString(line, -1) {
			if len(run) <= 8 {
				out[Run][run]++
			}
		}
	}
	classes := make([]string, len(strokes))
	for i, r := range strokes {
		classes[i] = plainClass(r)
		if r >= ' ' || r == '\n' {
			out[Symbol][symbolText(r)]++
		}
		if i > 0 && classes[i] != "" && classes[i-1] != "" {
			out[Pair][classes[i-1]+classes[i]]++
			if i > 1 && classes[i-2] != "" {
				out[Triple][classes[i-2]+classes[i-1]+classes[i]]++
			}
		}
	}
	return out
}

func plainClass(r rune) string {
	switch {
	case r == '\n' || r == ' ':
		return string(r)
	case r < ' ' || r > '~':
		return ""
	case unicode.IsLower(r):
		return "a"
	case unicode.IsUpper(r):
		return "A"
	case unicode.IsDigit(r):
		return "0"
	}
	return string(r)
}

// random is text in which all that matters to counting is common.
func random(r *rand.Rand, n int) string {
	pieces := []string{"a", "bc", "Name", "x_y", "_z", "__init__", "w_", "_", "0", "12", "0x1F", "1.5", "1e-5", "3.", " ", "  ", "\t", "\n", "\n\n", "\r\n",
		"(", ")", "{", "}", ":=", "->", "...", ";", ",", "!=", "&&", "=========", "\x00", "\x01", "é", "日本", "return", "if", "averyveryverylongname_indeed", "longerThanEight"}
	var b strings.Builder
	for b.Len() < n {
		b.WriteString(pieces[r.IntN(len(pieces))])
	}
	return b.String()
}

// tidy is such text indented with tabs alone, and with no other space but
// single ones between words.
func tidy(r *rand.Rand, n int) string {
	lines := strings.Split(strings.ReplaceAll(random(r, n), "\r", ""), "\n")
	for i, line := range lines {
		lines[i] = strings.Repeat("\t", r.IntN(4)) + strings.Join(strings.Fields(line), " ")
	}
	return strings.Join(lines, "\n")
}

func TestCountsLikePlainly(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	lang := code.All().Named("markdown") // its view is the text
	for i := range 200 {
		text := []func(*rand.Rand, int) string{random, tidy}[i%2](r, r.IntN(400))
		c := counterOf(lang)
		c.add([]byte(text), 0, true, nil)
		got := c.table("test").counts
		for section, want := range plainly(text) {
			if section == Run || section == Triple { // the rarest are left off
				continue
			}
			if diff := cmp.Diff(want, nonNil(got[section])); diff != "" {
				t.Fatalf("%q: section %s (- plainly, + counted):\n%s", text, section, diff)
			}
		}
		for _, section := range []Section{Run, Triple} {
			for key, n := range got[section] {
				if want := plainly(text)[section][key]; n != want {
					t.Fatalf("%q: section %s, %q %v times, plainly %v", text, section, key, n, want)
				}
			}
		}
	}
}

// counterOf makes a counter that shares nothing.
func counterOf(lang *code.Language) *counter { return newCounter(lang, newTokens(lang, 1<<15)) }

func nonNil(c Counts) Counts {
	if c == nil {
		return Counts{}
	}
	return c
}

// What is counted by several workers is what one counts.
func TestMergedIsTheSame(t *testing.T) {
	lang := code.All().Named("go")
	r := rand.New(rand.NewPCG(3, 4))
	one, two, three := counterOf(lang), counterOf(lang), counterOf(lang)
	for i := range 40 {
		text := []byte(random(r, 2000))
		one.add(text, 0, true, nil)
		[]*counter{two, three}[i%2].add(text, 0, true, nil)
	}
	all := counterOf(lang)
	all.merge(two)
	all.merge(three)
	if diff := cmp.Diff(one.table("x").counts, all.table("x").counts); diff != "" {
		t.Error(diff)
	}
}

// With little room the commonest stays and the sum of what is spelled is right.
func TestFullTallies(t *testing.T) {
	words := newWordTally(1 << 11)
	tally := newTally(600)
	counted := uint64(0)
	for i := range uint64(200_000) {
		key := 1 + i%7
		if i%3 == 0 {
			key = 100 + i
		}
		tally.add(key)
		words.at(key, 0).n++
		for _, gone := range words.grow() {
			counted += gone.n
		}
	}
	for _, s := range words.slots {
		counted += s.n
	}
	if counted != 200_000 {
		t.Errorf("words counted %d times, want 200000", counted)
	}
	for _, s := range tally.top(7) {
		if s.key > 7 || s.n < 19_000 {
			t.Errorf("key %d counted %d times among the seven commonest", s.key, s.n)
		}
	}
	if len(tally.slots) > 4096 || len(words.slots) > 1<<13 {
		t.Errorf("tables of %d and %d slots", len(tally.slots), len(words.slots))
	}
}

func TestTokens(t *testing.T) {
	src := `package main // a comment

func maxOf(a, b int) (n int) {
	if a >= b && a != 0x1F { // more
		return a
	}
	s := "body" + 'x'
	return fooBar.MAX_LEN + 12
}
`
	c := counterOf(code.All().Named("go"))
	c.add([]byte(src), 0, true, nil)
	table := c.table("test")
	lines := Counts{"package x": 1, "func x(x, x x) (x x) {": 1, "if x >= x && x != 0 {": 1, "return x": 1, "}": 2, `x := "s" + 's'`: 1, "return x.XX + 0": 1}
	for section, want := range map[Section]Counts{
		Line:      lines,
		Word:      {"package": 1, "func": 1, "if": 1, "return": 2},
		Number:    {"0x0f": 1, "00": 1},
		NameShape: {"a": 11, "aAa": 2, "A_A": 1},
		Tokens:    {"1": 2, "2": 2, "6": 1, "9": 2, "13": 1},
		Indent:    {"unit\ttab": 1, "depth\t0": 3, "depth\t1": 4, "depth\t2": 1, "step\t0": 4, "step\t1": 2, "step\t-1": 2},
		Start:     {"package": 1, "func": 1, "if": 1, "return": 2, "}": 2, "x": 1},
	} {
		for key, n := range want {
			if got := table.Counts(section)[key]; got != n {
				t.Errorf("section %s: %q %v times, want %v", section, key, got, n)
			}
		}
	}
	if t.Failed() {
		t.Log(table.Counts(Line), table.Counts(NameShape), table.Counts(Tokens), table.Counts(Indent))
	}
}
