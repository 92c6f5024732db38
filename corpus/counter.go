package corpus

import (
	"bytes"
	"fmt"

	"underlay/corpus/code"
)

// counter counts the sources of one language: strokes in all of them, tokens
// where it is asked to.
type counter struct {
	lang    *code.Language
	files   uint32
	bytes   uint64 // of source
	lines   uint64 // of source
	strokes *strokes
	tokens  *tokens
	raw     bool
	settled uint64   // bytes counted at the last settling
	waiting [][]byte // views whose tokens are still to be counted
}

// padding is what a view has after its end, so that it may be read past it: a
// line feed and zeros.
const padding = 80

// newCounter makes a counter. Several may share their tokens, which saves much
// memory and takes little time, since tokens are counted in a part of the files.
func newCounter(lang *code.Language, shared *tokens) *counter {
	return &counter{lang: lang, strokes: newStrokes(shared.alphabet), tokens: shared}
}

// add counts the code view of a source of so many lines. It makes the view in
// buffer, which it returns for the next one.
func (c *counter) add(src []byte, lines int, tokens bool, buffer []byte) []byte {
	c.begin(src, lines)
	view := c.lang.View(buffer[:0], src)
	n := len(view)
	end := [padding]byte{'\n'}
	view = append(view, end[:]...)
	c.strokes.add(view, n)
	if tokens {
		c.addTokens(view)
	}
	const often = 1 << 28
	if c.bytes-c.settled > often {
		c.settled = c.bytes
		c.strokes.settle()
	}
	return view
}

// addTokens counts the tokens of a view with its padding; where another counter
// is at them, it leaves the view for later.
func (c *counter) addTokens(view []byte) {
	const most = 16
	if !c.tokens.one.TryLock() {
		if len(c.waiting) < most {
			c.waiting = append(c.waiting, bytes.Clone(view))
			return
		}
		c.tokens.one.Lock()
	}
	defer c.tokens.one.Unlock()
	c.tokens.add(view, len(view)-padding)
	c.addWaiting()
}

// addWaiting counts the tokens of the views that wait for it.
func (c *counter) addWaiting() {
	for _, view := range c.waiting {
		c.tokens.add(view, len(view)-padding)
	}
	c.waiting = nil
}

// finish counts what waits.
func (c *counter) finish() {
	c.tokens.one.Lock()
	defer c.tokens.one.Unlock()
	c.addWaiting()
}

// addRaw counts all characters of a source.
func (c *counter) addRaw(src []byte, lines int) {
	c.raw = true
	c.begin(src, lines)
	c.strokes.addRaw(src)
}

func (c *counter) begin(src []byte, lines int) {
	c.files++
	c.bytes += uint64(len(src))
	c.lines += uint64(lines)
}

// merge adds what another counter of the same language has counted; that is
// not to be used any more.
func (c *counter) merge(o *counter) {
	c.files += o.files
	c.bytes += o.bytes
	c.lines += o.lines
	c.raw = c.raw || o.raw
	c.strokes.merge(o.strokes)
	if c.tokens != o.tokens {
		c.tokens.merge(o.tokens)
	}
}

// table makes a table of the counts. The counter is not to be used after it.
func (c *counter) table(name string) *Table {
	t := &Table{Name: name, Language: c.lang.Name, Files: float64(c.files), Bytes: float64(c.bytes), Lines: float64(c.lines)}
	c.strokes.put(t, c.raw)
	c.tokens.put(t)
	if n := c.tokens.files; n > 0 && n < c.files {
		t.Notes = append(t.Notes, fmt.Sprintf("%s: triples, words, names and lines are those of %d of the %d files", t.Language, n, c.files))
	}
	t.Trim(limits())
	return t
}

// limits says how many keys of a section a table keeps, the commonest; all
// where there is no limit.
func limits() map[Section]int {
	return map[Section]int{Triple: 400, Run: 100, Name: 120, NameShape: 40, Number: 40, Start: 60, End: 50, Next: 500, Line: 200}
}

func sum(to, from []uint64) {
	for i, n := range from {
		if n != 0 { // most are, and pages that nobody writes take no memory
			to[i] += n
		}
	}
}
