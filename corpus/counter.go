package corpus

import (
	"bytes"

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
	view    []byte // kept for the next source
}

// padding is what a view has after its end, so that it may be read past it: a
// line feed and zeros.
const padding = 16

func newCounter(lang *code.Language) *counter {
	a := newAlphabet()
	return &counter{lang: lang, strokes: newStrokes(a), tokens: newTokens(a, lang)}
}

// add counts the code view of a source.
func (c *counter) add(src []byte, tokens bool) {
	c.begin(src)
	c.view = c.lang.View(c.view[:0], src)
	n := len(c.view)
	end := [padding]byte{'\n'}
	c.view = append(c.view, end[:]...)
	c.strokes.add(c.view, n)
	if tokens {
		c.tokens.add(c.view, n)
	}
}

// addRaw counts all characters of a source.
func (c *counter) addRaw(src []byte) {
	c.begin(src)
	c.strokes.addRaw(src)
}

func (c *counter) begin(src []byte) {
	c.files++
	c.bytes += uint64(len(src))
	c.lines += uint64(bytes.Count(src, []byte{'\n'}))
}

// merge adds what another counter of the same language has counted; that is
// not to be used any more.
func (c *counter) merge(o *counter) {
	c.files += o.files
	c.bytes += o.bytes
	c.lines += o.lines
	c.strokes.merge(o.strokes)
	c.tokens.merge(o.tokens)
}

// table makes a table of the counts. The counter is not to be used after it.
func (c *counter) table(name string) *Table {
	t := &Table{Name: name, Language: c.lang.Name, Files: float64(c.files), Bytes: float64(c.bytes), Lines: float64(c.lines)}
	c.strokes.put(t)
	c.tokens.put(t)
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
		to[i] += n
	}
}
