package corpus

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"
)

// Table says how often what occurs in some code. The counts of a table are
// those of its sources; the counts of a mix are scaled (see Mix).
type Table struct {
	Name     string
	Language string // "" in a mix and where there is no language
	Sources  []Source
	Notes    []string // assumptions and limits, one sentence each
	Files    float64
	Bytes    float64 // of source as read, not of its code view
	Lines    float64
	// Weight is the share of all strokes that this table's strokes make up,
	// 0 < Weight < 1, where the table itself says so (keys), else 0.
	Weight float64
	// Parts are the tables of single languages that a mix, or a table counted
	// from several languages, is made of. Nil in the table of one language.
	Parts []Part

	counts map[Section]Counts
}

// Source names a package that was counted.
type Source struct {
	Name, Version, Licence string
	Files, Bytes           float64
}

// Part is a table with its weight in a mix: a share of strokes, not of bytes.
type Part struct {
	Table  *Table
	Weight float64
}

// Section names one kind of count. The comment gives the keys.
type Section string

// In the keys of Pair and Triple letters stand as "a" and "A", digits as "0";
// marks, space and line feed stand for themselves. The keys of Start, End,
// Next and Line are spelled in tokens: see Token.
const (
	Symbol    Section = "symbol"  // a symbol: "(", "e", "E", "Space", "Enter", "Escape", "Control+w"
	Pair      Section = "pair"    // two symbols in a row, by class: "()", "a(", ", "
	Triple    Section = "triple"  // three symbols in a row, by class
	Letter    Section = "letter"  // two letters in a row in a word of a name, lower case; " e" begins a word, "e " ends one
	Run       Section = "run"     // the hundred commonest runs of marks: ":=", ")."
	Sits      Section = "sits"    // mark, and what is on its two sides: w letter or digit, s space, m mark, b body of a literal, e edge of the line; "(", "wm"
	Word      Section = "word"    // the language's own words: "return"
	Name      Section = "name"    // names that many files use, of at most 8 characters: "err"
	Length    Section = "length"  // words of names by form and number of letters: "a", "3"; forms a, A, Aa; 20 is 20 or more
	NameShape Section = "shape"   // names with runs of letters as a or A, of digits as 0: "aAa0", "A_A", "__a__"
	Number    Section = "number"  // number literals with digits as 0, hexadecimal letters as f: "0", "00", "0x0f", "0.0"
	Start     Section = "start"   // first token of a line
	End       Section = "end"     // last token of a line
	Next      Section = "next"    // a token and the next one, which begins with a space where one parts them: "x", " :="
	Line      Section = "line"    // the commonest lines: "if x != nil {"
	Tokens    Section = "tokens"  // lines by number of tokens: "7"; 40 is 40 or more
	Columns   Section = "columns" // lines by characters without indentation, in fives: "5" is 1 to 5; 120 is all above 115
	Indent    Section = "indent"  // "unit" and "tab" or a number of spaces, by files; "depth" and levels, "step" and levels more than the line before, by lines
)

// Sections lists all sections in the order in which they are written.
func Sections() []Section {
	return []Section{Symbol, Pair, Triple, Letter, Run, Sits, Word, Name, Length, NameShape,
		Number, Start, End, Next, Line, Tokens, Columns, Indent}
}

// fields is the number of fields of the section's keys; where it is two,
// a key has a tab between them.
func (s Section) fields() int {
	switch s {
	case Sits, Length, Next, Indent:
		return 2
	}
	return 1
}

// Counts maps keys to how often they occur. A key of two fields has a tab
// between them.
type Counts map[string]float64

// Count is one key with its count.
type Count struct {
	Key string
	N   float64
}

// Total is the sum of all counts.
func (c Counts) Total() float64 {
	var sum float64
	for _, k := range c.keys() { // in one order, so that the sum is one
		sum += c[k]
	}
	return sum
}

// Top returns the n commonest keys, or all where n < 0; equal counts by key.
func (c Counts) Top(n int) []Count {
	all := make([]Count, 0, len(c))
	for k, v := range c {
		all = append(all, Count{k, v})
	}
	slices.SortFunc(all, func(a, b Count) int {
		return cmp.Or(cmp.Compare(b.N, a.N), strings.Compare(a.Key, b.Key))
	})
	if n >= 0 && n < len(all) {
		all = all[:n]
	}
	return all
}

// After returns what follows first in a section whose keys have two fields.
func (c Counts) After(first string) Counts {
	out := Counts{}
	for k, v := range c {
		if rest, ok := strings.CutPrefix(k, first+"\t"); ok {
			out[rest] = v
		}
	}
	return out
}

func (c Counts) keys() []string {
	out := make([]string, 0, len(c))
	for k := range c {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// Counts returns one section. The map is the table's own: it is to be read.
func (t *Table) Counts(s Section) Counts { return t.counts[s] }

// Symbols returns the counts of single symbols, the strokes of the table. The
// map is the table's own: it is to be read.
func (t *Table) Symbols() map[string]float64 { return t.counts[Symbol] }

// Strokes is the number of strokes counted.
func (t *Table) Strokes() float64 { return t.counts[Symbol].Total() }

// Share is the symbol's share of all strokes, 0 to 1.
func (t *Table) Share(symbol string) float64 {
	if sum := t.Strokes(); sum > 0 {
		return t.counts[Symbol][symbol] / sum
	}
	return 0
}

// Leaves returns the tables of single languages that t is made of, each with
// its share of t's strokes; for a table of one language, itself.
func (t *Table) Leaves() []Part {
	if len(t.Parts) == 0 {
		return []Part{{t, 1}}
	}
	var sum float64
	for _, p := range t.Parts {
		sum += p.Weight
	}
	var out []Part
	for _, p := range t.Parts {
		for _, leaf := range p.Table.Leaves() {
			out = append(out, Part{leaf.Table, leaf.Weight * p.Weight / sum})
		}
	}
	return out
}

// Trim keeps of some sections only the given numbers of keys, the commonest.
func (t *Table) Trim(limits map[Section]int) {
	for s, n := range limits {
		if len(t.counts[s]) <= n {
			continue
		}
		kept := make(Counts, n)
		for _, c := range t.counts[s].Top(n) {
			kept[c.Key] = c.N
		}
		t.counts[s] = kept
	}
}

// Filter keeps of a section only the keys that are wanted.
func (t *Table) Filter(s Section, wanted func(key string) bool) {
	maps.DeleteFunc(t.counts[s], func(key string, _ float64) bool { return !wanted(key) })
}

// add adds scale times n to the count of a key.
func (t *Table) add(s Section, key string, n float64) {
	if t.counts == nil {
		t.counts = map[Section]Counts{}
	}
	if t.counts[s] == nil {
		t.counts[s] = Counts{}
	}
	t.counts[s][key] += n
}

// Classes returns the strokes by class, the commonest first: "small letters",
// "capitals", "digits", "marks", "spaces", "line ends", "other characters" and
// "keys", which are those that no text shows.
func (t *Table) Classes() []Count {
	classes := Counts{}
	for symbol, n := range t.counts[Symbol] {
		classes[classOfSymbol(symbol)] += n
	}
	return classes.Top(-1)
}

func classOfSymbol(symbol string) string {
	r, n := utf8.DecodeRuneInString(symbol)
	switch {
	case symbol == "Space":
		return "spaces"
	case symbol == "Enter":
		return "line ends"
	case n < len(symbol):
		return "keys"
	case 'a' <= r && r <= 'z':
		return "small letters"
	case 'A' <= r && r <= 'Z':
		return "capitals"
	case '0' <= r && r <= '9':
		return "digits"
	case ' ' < r && r < 0x7f:
		return "marks"
	}
	return "other characters"
}
