package corpus

import (
	"encoding/binary"
	"unicode/utf8"

	"underlay/corpus/code"
)

// counter counts the code views of one language. All that is done for each
// byte or token is arithmetic and arrays.
type counter struct {
	lang  *code.Language
	lex   *lexicon
	files uint32
	bytes uint64 // of source
	lines uint64 // of source

	symbols [256]uint64
	runes   map[rune]uint64
	triples []uint64 // by three classes
	context int      // the last two classes, of 6 bits each

	letters  [32 * 32]uint64          // by two letters of names, 1 to 26; 0 is the edge of a word
	lengths  [forms][maxLength]uint64 // words of names by form and length
	names    *tally                   // packed
	shapes   *tally                   // of names, three bits an element
	numbers  *tally                   // shapes, packed
	single   [256]uint64              // runs of one mark
	runs     *tally                   // runs of two to eight marks, packed
	run      uint64
	runLen   int
	words    [maxTokens]uint64 // the language's words by token
	starts   [maxTokens]uint64
	ends     [maxTokens]uint64
	next     *tally // previous token and coded token
	perLine  [maxPerLine + 1]uint64
	columns  [maxColumns + 1]uint64
	commonly *lineTally
	prev     token
	line     []uint16 // coded tokens of this line
	indents  indents
	view     []byte // kept for the next file
}

const (
	maxLength  = 21
	maxPerLine = 40
	maxColumns = 120 / 5
	padding    = 16 // bytes after a view that may be read
)

func newCounter(lang *code.Language) *counter {
	return &counter{
		lang: lang, lex: newLexicon(lang), runes: map[rune]uint64{}, triples: make([]uint64, 1<<18),
		names: newTally(1 << 16), shapes: newTally(1 << 14), numbers: newTally(1 << 14), runs: newTally(1 << 16),
		next: newTally(1 << 18), commonly: newLineTally(1 << 17),
	}
}

// add counts one source.
func (c *counter) add(src []byte) {
	c.files++
	c.bytes += uint64(len(src))
	c.lines += countLines(src)
	c.view = c.lang.View(c.view[:0], src)
	n := len(c.view)
	c.view = append(c.view, make([]byte, padding)...)
	c.context = 0
	for i := 0; i < n; {
		i = c.countLine(c.view, i, n)
	}
	c.indents.endFile()
}

// addRaw counts all characters of one source: symbols, pairs and runs.
func (c *counter) addRaw(src []byte) {
	c.files++
	c.bytes += uint64(len(src))
	c.lines += countLines(src)
	c.context = 0
	for i := 0; i < len(src); {
		b := src[i]
		switch {
		case b >= utf8.RuneSelf:
			c.endRun()
			i += c.letter(src[i:])
			continue
		case classes[b] >= classMark:
			c.mark(b)
		default:
			c.endRun()
			c.stroke(b)
		}
		i++
	}
	c.endRun()
}

// countLine counts the line that begins at i, and returns where the next does.
func (c *counter) countLine(src []byte, i, n int) int {
	first, width, tabs := i, 0, false
	for i < n && kinds[src[i]] == kindSpace {
		tabs = tabs || src[i] == '\t'
		width++
		i++
	}
	first = i
	c.prev, c.line = tokenBreak, c.line[:0]
	spaced := false
	for i < n && src[i] != '\n' {
		kind := kinds[src[i]]
		if kind == kindSpace {
			spaced = true
			i++
			continue
		}
		if spaced && len(c.line) > 0 {
			c.endRun()
			c.stroke(' ')
		}
		i = c.countToken(src, i, kind, spaced && len(c.line) > 0)
		spaced = false
	}
	if len(c.line) > 0 {
		c.endLine(min(i, n) - first)
		c.indents.line(width, tabs)
	}
	if i < n {
		c.stroke('\n')
	}
	return i + 1
}

func (c *counter) endLine(columns int) {
	c.endRun()
	c.ends[c.prev]++
	c.follow(tokenBreak, false)
	tokens := len(c.line) - 1
	c.line = c.line[:tokens]
	c.perLine[min(tokens, maxPerLine)]++
	c.columns[min((columns+4)/5, maxColumns)]++
	c.commonly.add(c.line, c.files)
}

// countToken counts the token that begins at i, and returns where it ends.
func (c *counter) countToken(src []byte, i int, kind kind, spaced bool) int {
	switch kind {
	case kindWord:
		return c.countWord(src, i, spaced)
	case kindDigit:
		return c.countNumber(src, i, spaced)
	case kindAlone:
		c.mark(src[i])
		c.follow(token(src[i]), spaced)
		return i + 1
	case kindMark:
		return c.countMarks(src, i, spaced)
	case kindBody:
		c.endRun()
		c.context = (c.context<<6 | classBody) & 0xfff
		if src[i] == code.Body {
			c.follow(tokenBody, spaced)
		}
	}
	return i + 1
}

func (c *counter) countMarks(src []byte, i int, spaced bool) int {
	j := i
	for kinds[src[j]] == kindMark {
		c.mark(src[j])
		j++
	}
	c.follow(c.lex.marks(src, i, j-i), spaced)
	return j
}

// follow counts a token after the previous one.
func (c *counter) follow(t token, spaced bool) {
	coded := uint16(t) << 1
	if spaced {
		coded |= 1
	}
	if c.prev == tokenBreak {
		c.starts[t]++
	}
	c.next.add(uint64(c.prev)<<16|uint64(coded), c.files)
	c.line = append(c.line, coded)
	c.prev = t
}

// stroke counts one ASCII character.
func (c *counter) stroke(b byte) {
	c.symbols[b]++
	c.class(int(classes[b]))
}

// class counts one class of symbol after the last two.
func (c *counter) class(class int) {
	at := c.context<<6 | class
	c.triples[at]++
	c.context = at & 0xfff
}

// mark counts one mark, as a stroke and as part of a run.
func (c *counter) mark(b byte) {
	c.stroke(b)
	c.run |= uint64(b) << (8 * c.runLen & 63)
	c.runLen++
}

func (c *counter) endRun() {
	switch {
	case c.runLen == 0:
		return
	case c.runLen == 1:
		c.single[byte(c.run)]++
	case c.runLen <= 8:
		c.runs.add(c.run, c.files)
	}
	c.run, c.runLen = 0, 0
}

// letter counts a character outside of ASCII, and returns its length.
func (c *counter) letter(src []byte) int {
	r, n := utf8.DecodeRune(src)
	if r != utf8.RuneError && len(c.runes) < 1<<16 {
		c.runes[r]++
	}
	c.class(classOther)
	return n
}

// load reads n bytes at i, at most 16, as two packed halves.
func load(src []byte, i, n int) (lo, hi uint64) {
	lo = binary.LittleEndian.Uint64(src[i:])
	if n < 8 {
		return lo & (1<<(8*n) - 1), 0
	}
	if n == 8 {
		return lo, 0
	}
	hi = binary.LittleEndian.Uint64(src[i+8:])
	if n < 16 {
		hi &= 1<<(8*(n-8)) - 1
	}
	return lo, hi
}

func countLines(src []byte) (n uint64) {
	for _, b := range src {
		if b == '\n' {
			n++
		}
	}
	return n
}
