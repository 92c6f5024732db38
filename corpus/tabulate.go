package corpus

import (
	"maps"
	"strconv"
	"strings"
)

// limits says how many keys of a section a table keeps, the commonest; all
// where there is no limit.
func limits() map[Section]int {
	return map[Section]int{Triple: 400, Run: 100, Name: 120, NameShape: 40, Number: 40, Start: 60, End: 50, Next: 500, Line: 200}
}

// table makes a table of the counts.
func (c *counter) table(name string) *Table {
	t := &Table{Name: name, Language: c.lang.Name, Files: float64(c.files), Bytes: float64(c.bytes), Lines: float64(c.lines)}
	c.putSymbols(t)
	c.putTriples(t)
	c.putWords(t)
	c.putLines(t)
	c.indents.put(t)
	t.Trim(limits())
	return t
}

// Trim keeps of some sections only the given numbers of keys, the commonest.
func (t *Table) Trim(limits map[Section]int) {
	for s, n := range limits {
		t.keep(s, n)
	}
}

// Filter keeps of a section only the keys that are wanted.
func (t *Table) Filter(s Section, wanted func(key string) bool) {
	maps.DeleteFunc(t.counts[s], func(key string, _ float64) bool { return !wanted(key) })
}

// keep keeps the n commonest keys of a section.
func (t *Table) keep(s Section, n int) {
	if len(t.counts[s]) <= n {
		return
	}
	kept := make(Counts, n)
	for _, c := range t.counts[s].Top(n) {
		kept[c.Key] = c.N
	}
	t.counts[s] = kept
}

// put adds n to a count; nothing where it is 0.
func (t *Table) put(s Section, key string, n uint64) {
	if n > 0 {
		t.add(s, key, float64(n))
	}
}

func (c *counter) putSymbols(t *Table) {
	for b, n := range c.symbols {
		t.put(Symbol, symbolText(rune(b)), n)
	}
	for r, n := range c.runes {
		t.put(Symbol, symbolText(r), n)
	}
	for b, n := range c.single {
		t.put(Run, string(rune(b)), n)
	}
	for _, s := range c.runs.top(-1) {
		t.put(Run, unpack(s.key), s.n)
	}
}

// symbolText spells the symbol that a character is.
func symbolText(r rune) string {
	switch r {
	case ' ':
		return "Space"
	case '\n':
		return "Enter"
	case '\t':
		return "Tab"
	}
	return string(r)
}

// putTriples fills Triple and what is to be seen in triples: pairs, and how
// marks sit.
func (c *counter) putTriples(t *Table) {
	for at, n := range c.triples {
		if n == 0 {
			continue
		}
		before, middle, last := at>>12, at>>6&63, at&63
		if texts := classTexts(middle, last); texts != "" {
			t.put(Pair, texts, n)
			if first := classTexts(before); first != "" {
				t.put(Triple, first+texts, n)
			}
		}
		if middle >= classMark {
			t.put(Sits, classTexts(middle)+"\t"+side(before)+side(last), n)
		}
	}
}

// classTexts spells classes in a row, "" where one of them is no stroke of ASCII.
func classTexts(list ...int) string {
	var b strings.Builder
	for _, class := range list {
		switch {
		case class >= classMark:
			b.WriteByte(asciiMarks[class-classMark])
		case class == classNone || class == classBody || class == classOther:
			return ""
		default:
			b.WriteByte("aA0? \n"[class-classLower])
		}
	}
	return b.String()
}

// side spells what is beside a mark.
func side(class int) string {
	switch class {
	case classNone, classBreak:
		return "e"
	case classBody:
		return "b"
	case classSpace:
		return "s"
	case classLower, classUpper, classDigit, classOther:
		return "w"
	}
	return "m"
}

func (c *counter) putWords(t *Table) {
	for at, n := range c.letters {
		t.put(Letter, string([]byte{letterText(at >> 5), letterText(at & 31)}), n)
	}
	for f := range c.lengths {
		for length, n := range c.lengths[f] {
			t.put(Length, []string{"a", "A", "Aa"}[f]+"\t"+strconv.Itoa(length), n)
		}
	}
	for at, n := range c.words {
		if n > 0 {
			t.put(Word, c.lex.texts[at], n)
		}
	}
	for _, s := range c.names.top(-1) {
		if int(s.files) >= max(3, int(c.files)/50) {
			t.put(Name, unpack(s.key), s.n)
		}
	}
	for _, s := range c.shapes.top(-1) {
		t.put(NameShape, shapeText(s.key), s.n)
	}
	for _, s := range c.numbers.top(-1) {
		t.put(Number, unpack(s.key), s.n)
	}
}

func letterText(letter int) byte {
	if letter == 0 {
		return ' '
	}
	return byte('a' + letter - 1)
}

func shapeText(packed uint64) string {
	var b strings.Builder
	for ; packed != 0; packed >>= 3 {
		b.WriteString([]string{"", "a", "A", "0", "_", "é", "", ""}[packed&7])
	}
	return b.String()
}

func (c *counter) putLines(t *Table) {
	for at := range c.lex.texts {
		t.put(Start, c.lex.texts[at], c.starts[at])
		t.put(End, c.lex.texts[at], c.ends[at])
	}
	for _, s := range c.next.top(-1) {
		prev, next := c.lex.texts[s.key>>16], c.spell(uint16(s.key))
		if prev != "" && next != "" {
			t.put(Next, prev+"\t"+next, s.n)
		}
	}
	for _, s := range c.commonly.top(2 * limits()[Line]) {
		if text := c.spell(c.commonly.lines[s.key]...); text != "" {
			t.put(Line, text, s.n)
		}
	}
	for n, lines := range c.perLine {
		t.put(Tokens, strconv.Itoa(n), lines)
	}
	for fives, lines := range c.columns {
		t.put(Columns, strconv.Itoa(5*fives), lines)
	}
}

// spell spells coded tokens, "" where one has no text.
func (c *counter) spell(line ...uint16) string {
	var b strings.Builder
	for _, coded := range line {
		text := c.lex.texts[coded>>1]
		if text == "" {
			return ""
		}
		b.WriteString(Token{text, coded&1 == 1}.String())
	}
	return b.String()
}

func (in *indents) put(t *Table) {
	for unit, n := range in.units {
		key := strconv.Itoa(unit)
		if unit == unitTab {
			key = "tab"
		}
		t.put(Indent, "unit\t"+key, n)
	}
	for depth, n := range in.depths {
		t.put(Indent, "depth\t"+strconv.Itoa(depth), n)
	}
	for step, n := range in.steps {
		t.put(Indent, "step\t"+strconv.Itoa(step-4), n)
	}
}
