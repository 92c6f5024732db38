package corpus

import (
	"strconv"
	"strings"
)

// put adds n to a count; nothing where it is 0.
func (t *Table) put(s Section, key string, n uint64) {
	if n > 0 {
		t.add(s, key, float64(n))
	}
}

// put fills the sections of a table. What was counted is not to be added to
// after it.
func (c *tokens) put(t *Table) {
	c.settle(c.written.slots)
	c.putTriples(t)
	c.putNames(t)
	c.spelled.put(t, c.lex)
	c.putLines(t)
	c.indents.put(t)
}

// putTriples fills Triple, and Sits, which is to be seen in triples.
func (c *tokens) putTriples(t *Table) {
	for at, n := range c.triples {
		if n == 0 {
			continue
		}
		before, middle, last := at>>12, at>>6&63, at&63
		if texts := classTexts(before, middle, last); texts != "" {
			t.put(Triple, texts, n)
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
		switch class {
		case classNone, classBody, classOther:
			return ""
		case classSpace:
			b.WriteByte(' ')
		case classBreak:
			b.WriteByte('\n')
		case classLower:
			b.WriteByte('a')
		case classUpper:
			b.WriteByte('A')
		case classDigit:
			b.WriteByte('0')
		default:
			b.WriteByte(asciiMarks[class-classMark])
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

// putNames fills Name with the names that many files use.
func (c *tokens) putNames(t *Table) {
	for _, s := range c.written.slots {
		if s.lo != 0 && s.hi == 0 && s.token <= tokenUpper && int(s.files) >= max(3, int(c.files)/50) {
			t.put(Name, unpack(s.lo), s.n)
		}
	}
}

func (s *spelled) put(t *Table, lex *lexicon) {
	for at, n := range s.letters {
		t.put(Letter, string([]byte{letterText(at >> 5), letterText(at & 31)}), n)
	}
	for f := range s.lengths {
		for length, n := range s.lengths[f] {
			t.put(Length, []string{"a", "A", "Aa"}[f]+"\t"+strconv.Itoa(length), n)
		}
	}
	for at, n := range s.words {
		if n > 0 {
			t.put(Word, lex.texts[at], n)
		}
	}
	for _, slot := range s.shapes.top(-1) {
		t.put(NameShape, shapeText(slot.key), slot.n)
	}
	for _, slot := range s.numbers.top(-1) {
		t.put(Number, unpack(slot.key), slot.n)
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

func (c *tokens) putLines(t *Table) {
	for at, text := range c.lex.texts {
		t.put(Start, text, c.starts[at])
		t.put(End, text, c.ends[at])
	}
	for _, s := range c.next.top(-1) {
		prev, next := c.lex.texts[s.key>>16], c.text(uint16(s.key))
		if prev != "" && next != "" {
			t.put(Next, prev+"\t"+next, s.n)
		}
	}
	for _, s := range c.commonly.atLeast(limits()[Line]) {
		if text := c.text(c.commonly.lines[s.key]...); text != "" {
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

// text spells coded tokens, "" where one has no text.
func (c *tokens) text(line ...uint16) string {
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
