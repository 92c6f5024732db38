package drills

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"underlay/corpus"
	"underlay/drills/board"
)

// divergence is the Jensen-Shannon divergence of two distributions in bits.
// Source: Lin, Divergence measures based on the Shannon entropy, IEEE
// Transactions on Information Theory 37(1), 1991.
func divergence(p, q map[board.Symbol]float64) float64 {
	sum := func(m map[board.Symbol]float64) float64 {
		n := 0.0
		for _, x := range m {
			n += x
		}
		return n
	}
	ps, qs := sum(p), sum(q)
	half := func(a, b map[board.Symbol]float64, as, bs float64) float64 {
		d := 0.0
		for s, x := range a {
			if x > 0 {
				d += x / as * math.Log2(2*(x/as)/(x/as+b[s]/bs))
			}
		}
		return d / 2
	}
	return half(p, q, ps, qs) + half(q, p, qs, ps)
}

// few shortens a test that needs many drills where time is short.
func few(n int) int {
	if testing.Short() {
		return n / 5
	}
	return n
}

// tally counts the symbols of n drills.
func tally(t testing.TB, g *Generator, k Kind, wanted map[board.Symbol]float64, n int) map[board.Symbol]float64 {
	t.Helper()
	got := map[board.Symbol]float64{}
	for seed := range uint64(n) {
		d, err := g.Generate(k, wanted, seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range d.Keys {
			got[key.Symbol]++
		}
	}
	return got
}

// onlyOf returns the counts of what is wanted.
func onlyOf(got, wanted map[board.Symbol]float64) map[board.Symbol]float64 {
	out := map[board.Symbol]float64{}
	for s := range wanted {
		out[s] = got[s]
	}
	return out
}

func shares(m map[board.Symbol]float64) map[board.Symbol]float64 {
	sum, out := 0.0, map[board.Symbol]float64{}
	for _, n := range m {
		sum += n
	}
	for s, n := range m {
		out[s] = n / sum
	}
	return out
}

// plans are sets of wanted strokes like those that a scheduler asks for.
func plans() map[string]map[board.Symbol]float64 {
	return map[string]map[board.Symbol]float64{
		"marks":    {"(": 9, ")": 9, "{": 5, "}": 5, "=": 7, "_": 4, "\"": 5, ":": 3, "-": 2, "[": 3, "]": 3},
		"weak":     {"~": 1, "^": 1, "%": 2, "@": 1, "|": 2, "&": 3, "}": 3, "{": 3},
		"few":      {"(": 1, ")": 1, "*": 1},
		"uneven":   {"=": 20, ">": 5, "$": 1, "#": 1},
		"letters":  {"e": 4, "q": 1, "A": 1, "z": 1, "(": 2, ")": 2},
		"digits":   {"0": 5, "1": 4, "7": 1, "9": 1, ".": 2, "x": 1},
		"brackets": {"[": 1, "]": 1, "<": 1, ">": 1, "{": 1, "}": 1},
	}
}

// What is asked for comes in its proportion: over 2,000 drills within 0.02
// bits of the plan, and each stroke within a fifth of its share.
func TestPlanIsKept(t *testing.T) {
	g := generator(t, "split-38", "go", "keys")
	for name, wanted := range plans() {
		for _, k := range []Kind{Position, Pair, Token, Number} {
			if k == Number && name != "digits" {
				continue // letters and brackets are no numbers
			}
			got := onlyOf(tally(t, g, k, wanted, few(2000)), wanted)
			if d := divergence(got, wanted); d > .02 {
				t.Errorf("%s, %s: %.4f bits from the plan", name, k, d)
			}
			for s, share := range shares(wanted) {
				if r := shares(got)[s] / share; r < .8 || r > 1.2 {
					t.Errorf("%s, %s: %s has %.2f of its share", name, k, s, r)
				}
			}
		}
	}
}

// With nothing in particular asked for, lines are within 0.02 bits of their
// table.
func TestLinesAreLikeTheirTable(t *testing.T) {
	for _, name := range languages() {
		g := generator(t, "ansi-61", name)
		d := divergence(tally(t, g, Line, nil, few(2000)), g.shares)
		t.Logf("%-12s %.4f bits", name, d)
		if d > .02 {
			t.Errorf("%s: %.4f bits from the table", name, d)
		}
	}
}

func languages() []string {
	return slices.DeleteFunc(corpus.Embedded(), func(s string) bool { return s == "keys" })
}

// With strokes asked for, lines give each at least 0.8 of its share; brackets
// count as pairs.
func TestLinesBringWhatIsWanted(t *testing.T) {
	names := []string{"go", "python", "c", "javascript", "rust", "shell"}
	if testing.Short() {
		names = names[:2]
	}
	for _, language := range names {
		g := generator(t, "split-38", language)
		for name, wanted := range plans() {
			least := math.Inf(1)
			want := shares(pairedUp(wanted))
			got := shares(pairedUp(onlyOf(tally(t, g, Line, wanted, 500), wanted)))
			for s, share := range want {
				r := got[s] / share
				if least = min(least, r); r < .8 {
					t.Errorf("%s, %s: %s has %.2f of its share", language, name, s, r)
				}
			}
			t.Logf("%-10s %-8s the least has %.2f of its share", language, name, least)
		}
	}
}

// pairedUp gives both brackets of a pair their sum.
func pairedUp(m map[board.Symbol]float64) map[board.Symbol]float64 {
	out := maps.Clone(m)
	for i := range openers {
		o, c := board.Symbol(openers[i:i+1]), board.Symbol(closers[i:i+1])
		if _, ok := m[o]; ok {
			if _, ok := m[c]; ok {
				out[o], out[c] = m[o]+m[c], m[o]+m[c]
			}
		}
	}
	return out
}

func TestBracketsAreBalanced(t *testing.T) {
	wanted := []map[board.Symbol]float64{nil, plans()["brackets"], plans()["weak"]}
	for _, name := range languages() {
		g := generator(t, "ansi-61", name)
		for seed := range uint64(few(300)) {
			d, err := g.Generate(Line, wanted[seed%3], seed)
			if err != nil {
				t.Fatal(err)
			}
			open := ""
			for _, k := range d.Keys {
				switch s := string(k.Symbol); {
				case isOpener(s):
					open += s
				case isCloser(s) && (open == "" || closerOf(open[len(open)-1:]) != s):
					t.Errorf("%s: %s closes what is not open: %v", name, s, d)
				case isCloser(s):
					open = open[:len(open)-1]
				}
			}
			if open != "" {
				t.Errorf("%s: %s stays open: %v", name, open, d)
			}
		}
	}
}

// Twenty lines of a language are told from those of all others by their runs
// of marks alone: a naive Bayes classifier that has learned the tables' own
// counts is right for nine groups of ten. c and cpp count as one, and so do
// javascript and typescript.
func TestLanguagesAreToldApart(t *testing.T) {
	names := languages()
	model := map[string]map[string]float64{}
	for _, name := range names {
		model[name] = runModel(table(t, name).Counts(corpus.Run))
	}
	const lines = 20
	groups := few(25)
	right, all := 0, 0
	for _, name := range names {
		g := generator(t, "ansi-61", name)
		hits := 0
		for group := range groups {
			var text strings.Builder
			for i := range lines {
				d, err := g.Generate(Line, nil, uint64(group*lines+i))
				if err != nil {
					t.Fatal(err)
				}
				for _, k := range d.Keys {
					r, _ := k.Symbol.Rune()
					text.WriteRune(r)
				}
			}
			if family(classify(runsOf(text.String()), model)) == family(name) {
				hits++
			}
		}
		t.Logf("%-12s %d of %d", name, hits, groups)
		right, all = right+hits, all+groups
	}
	if share := float64(right) / float64(all); share < .9 {
		t.Errorf("%.2f of the groups are told right, want .9", share)
	}
}

func family(language string) string {
	switch language {
	case "cpp":
		return "c"
	case "typescript":
		return "javascript"
	}
	return language
}

// runModel gives the logarithm of each run's share; "" stands for one that is
// not among them.
func runModel(counts corpus.Counts) map[string]float64 {
	total := counts.Total() * 1.01
	out := map[string]float64{"": math.Log(1e-4)}
	for run, n := range counts {
		out[run] = math.Log(max(n/total, 1e-4))
	}
	return out
}

func runsOf(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool {
		return r <= ' ' || '0' <= r && r <= '9' || 'a' <= r|0x20 && r|0x20 <= 'z'
	})
}

func classify(runs []string, model map[string]map[string]float64) string {
	best, most := "", math.Inf(-1)
	for _, name := range slices.Sorted(maps.Keys(model)) {
		sum := 0.0
		for _, r := range runs {
			if p, ok := model[name][r]; ok {
				sum += p
			} else {
				sum += model[name][""]
			}
		}
		if sum > most {
			best, most = name, sum
		}
	}
	return best
}

func BenchmarkGenerate(b *testing.B) {
	g := generator(b, "split-38", "go", "python", "keys")
	for _, k := range drillKinds() {
		b.Run(string(k), func(b *testing.B) {
			seed := uint64(0)
			for b.Loop() {
				seed++
				if _, err := g.Generate(k, nil, seed); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkNewGenerator(b *testing.B) {
	board := load(b, "split-38")
	t := table(b, "go")
	for b.Loop() {
		NewGenerator(board, []corpus.Part{{Table: t, Weight: 1}}, Options{})
	}
}
