package corpus

import (
	"encoding/binary"
	"sync"

	"underlay/corpus/code"
)

// tokens counts what a language's lines are like: its tokens and what follows
// what, its words and names, whole lines. What can be had from other counts is
// not counted.
type tokens struct {
	*alphabet
	one     sync.Mutex // held while a source is counted
	lex     *lexicon
	files   uint32
	triples []uint64 // by three classes, of 6 bits each
	context int      // the last two classes

	written *wordTally // words and numbers
	spelled *spelled   // what is known of them

	starts, ends [maxTokens]uint64
	next         *tally // previous token and coded token
	perLine      [maxPerLine + 1]uint64
	columns      [maxColumns + 1]uint64
	commonly     *lineTally
	prev         token
	line         []uint16 // coded tokens of this line
	indents      indents
}

const (
	maxPerLine = 40
	maxColumns = 120 / 5
)

// newTokens makes a count of tokens with room for so many words and lines.
func newTokens(lang *code.Language, room int) *tokens {
	a := newAlphabet()
	triples := make([]uint64, 1<<18)
	return &tokens{
		alphabet: a, lex: newLexicon(lang), triples: triples,
		written: newWordTally(room), spelled: newSpelled(a, triples), next: newTally(1 << 14), commonly: newLineTally(room),
	}
}

// add counts the first n bytes of a view, after which there is the padding. One
// is held meanwhile.
func (c *tokens) add(view []byte, n int) {
	c.files++
	c.context = 0
	for i := 0; i < n; {
		i = c.countLine(view, i, n)
	}
	c.indents.endFile()
}

// countLine counts the line that begins at i, and returns where the next does.
func (c *tokens) countLine(src []byte, i, n int) int {
	indent := i
	for c.kinds[src[i]] == kindSpace {
		i++
	}
	if src[i] == '\n' {
		if i < n {
			c.class(classBreak)
		}
		return i + 1
	}
	c.indents.line(src[indent:i])
	first := i
	c.prev, c.line = tokenBreak, c.line[:0]
	spaced := uint16(0)
	for {
		switch kind := c.kinds[src[i]]; kind {
		case kindWord, kindDigit:
			i = c.countWord(src, i, kind, spaced)
		case kindAlone:
			c.class(int(c.classes[src[i]]))
			c.follow(c.lex.ofMark[src[i]], spaced)
			i++
		case kindMark:
			i = c.countMarks(src, i, spaced)
		case kindSpace:
			if i = c.countSpace(src, i); src[i] != '\n' {
				spaced = 1
				continue
			}
		case kindBreak:
			if i < n { // else the source ends without
				c.class(classBreak)
			}
			c.endLine(i - first)
			return i + 1
		default:
			c.context = (c.context<<6 | classBody) & 0xfff
			if src[i] == code.Body {
				c.follow(tokenBody, spaced)
			}
			i++
		}
		spaced = 0
	}
}

// countSpace counts a run of spaces as one, and none at the end of the line.
func (c *tokens) countSpace(src []byte, i int) int {
	i++
	for c.kinds[src[i]] == kindSpace {
		i++
	}
	if src[i] != '\n' {
		c.class(classSpace)
	}
	return i
}

func (c *tokens) endLine(columns int) {
	c.ends[c.prev]++
	c.perLine[min(len(c.line), maxPerLine)]++
	c.columns[min((columns+4)/5, maxColumns)]++
	c.commonly.add(c.line)
	c.follow(tokenBreak, 0)
}

// countMarks counts the marks from i on that are one token.
func (c *tokens) countMarks(src []byte, i int, spaced uint16) int {
	j := i
	for c.kinds[src[j]] == kindMark {
		c.class(int(c.classes[src[j]]))
		j++
	}
	switch n := j - i; {
	case n == 1:
		c.follow(c.lex.ofMark[src[i]], spaced)
	case n <= 8:
		key, _ := load(src, i, n)
		c.follow(c.lex.marks(key), spaced)
	default:
		c.follow(tokenRest, spaced)
	}
	return j
}

// follow counts a token after the previous one; spaced is 1 where a space is
// between them.
func (c *tokens) follow(t token, spaced uint16) {
	coded := uint16(t)<<1 | spaced
	if c.prev == tokenBreak {
		c.starts[t]++
	}
	c.next.add(uint64(c.prev)<<16 | uint64(coded))
	c.line = append(c.line, coded)
	c.prev = t
}

// class counts one class of symbol after the last two.
func (c *tokens) class(class int) {
	at := c.context<<6 | class
	c.triples[at]++
	c.context = at & 0xfff
}

// load reads n bytes at i, 1 to 16, as two packed halves.
func load(src []byte, i, n int) (lo, hi uint64) {
	lo = binary.LittleEndian.Uint64(src[i:])
	if n <= 8 {
		return lo & (^uint64(0) >> (64 - 8*n)), 0
	}
	hi = binary.LittleEndian.Uint64(src[i+8:])
	return lo, hi & (^uint64(0) >> (128 - 8*n))
}

// merge adds what was counted elsewhere of the same language. The numbers of
// tokens of several marks are each one's own.
func (c *tokens) merge(o *tokens) {
	c.files += o.files
	sum(c.triples, o.triples)
	sum(c.perLine[:], o.perLine[:])
	sum(c.columns[:], o.columns[:])
	c.indents.merge(&o.indents)
	c.spelled.merge(o.spelled)
	c.settle(c.written.merge(o.written))
	ours := c.lex.numbersOf(o.lex)
	for t, n := range o.starts {
		c.starts[ours[t]] += n
		c.ends[ours[t]] += o.ends[t]
	}
	for _, s := range o.next.slots {
		if s.key != 0 {
			s.key = uint64(ours[s.key>>16])<<16 | uint64(recoded(uint16(s.key), ours))
			c.next.merge([]slot{s})
		}
	}
	c.commonly.merge(o.commonly, ours)
}

// recoded is a coded token under another number.
func recoded(coded uint16, ours []token) uint16 { return uint16(ours[coded>>1])<<1 | coded&1 }

// settle counts what is in words that leave the tally.
func (c *tokens) settle(gone []wordSlot) {
	for _, s := range gone {
		if s.lo != 0 {
			c.spelled.add([]byte(unpack(s.lo)+unpack(s.hi)), s.token, s.n)
		}
	}
}
