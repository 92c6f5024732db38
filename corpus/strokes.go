package corpus

import (
	"encoding/binary"
	"math/bits"
	"unicode/utf8"
)

// strokes counts what is exact in every table: symbols, pairs of classes and
// runs of marks. Symbols and classes come from how often each byte follows each
// other, so that a byte costs one addition; lines and runs are found 64 bytes at
// a time.
type strokes struct {
	*alphabet
	recent  *[1 << 16]uint32 // by two bytes in a row, the first lowest
	follows []uint64         // the same, of earlier sources
	runes   map[rune]uint64
	runs
}

const blockBytes = 64

func newStrokes(a *alphabet) *strokes {
	return &strokes{alphabet: a, recent: new([1 << 16]uint32), runes: map[rune]uint64{}, runs: newRuns()}
}

// add counts the first n bytes of a view, after which there is the padding.
// Neither indentation nor space at the end of a line is counted; of a run of
// spaces inside a line, put makes one.
func (s *strokes) add(view []byte, n int) {
	if n == 0 {
		return
	}
	s.recent[int(view[0])<<8]++ // after nothing
	s.indented(view, 0, 0)
	marksBefore, foreign := uint64(0), uint64(0)
	for at := 0; at < n; at += blockBytes {
		var marks, breaks uint64
		block := view[at : at+blockBytes+1]
		for i := 0; i < blockBytes; i += wordBytes {
			word := binary.LittleEndian.Uint64(block[i:])
			foreign |= word
			marks |= gathered(marksIn(word)) << i
			breaks |= gathered(breaksIn(word)) << i
			pairsOf(s.recent, word, block[i+wordBytes])
		}
		if over := at + blockBytes - n; over >= 0 {
			s.takeBack(view, n, at+blockBytes)
			breaks = breaks << over >> over
		}
		for ; breaks != 0; breaks &= breaks - 1 {
			s.lineBreak(view, at+bits.TrailingZeros64(breaks), n)
		}
		s.runs.add(view, at, marks, marksBefore)
		marksBefore = marks >> (blockBytes - 1)
	}
	if s.classes[view[n-1]] == classSpace {
		s.trailing(view, n-1, false)
	}
	if foreign&highBits != 0 {
		s.letters(view[:n])
	}
}

// pairsOf counts what follows what in the eight bytes of a word and next.
func pairsOf(recent *[1 << 16]uint32, word uint64, next byte) {
	recent[uint16(word)]++
	recent[uint16(word>>8)]++
	recent[uint16(word>>16)]++
	recent[uint16(word>>24)]++
	recent[uint16(word>>32)]++
	recent[uint16(word>>40)]++
	recent[uint16(word>>48)]++
	recent[uint16(word>>56)|uint16(next)<<8]++
}

// takeBack takes back the pairs of bytes that lie after the end of the view,
// from n, that were counted up to the end of a block.
func (s *strokes) takeBack(view []byte, n, end int) {
	for i := n; i <= end; i++ {
		s.recent[uint16(view[i-1])|uint16(view[i])<<8]--
	}
}

// lineBreak sets right what stands on the two sides of a line feed: the space
// before it, and the indentation after.
func (s *strokes) lineBreak(view []byte, i, n int) {
	if i > 0 && s.classes[view[i-1]] == classSpace {
		s.trailing(view, i-1, true)
	}
	if i+1 < n && s.classes[view[i+1]] == classSpace {
		s.indented(view, i+1, '\n')
	}
}

// indented makes of indentation from i on that before is followed by what
// comes after. Of a blank line it leaves the space to trailing.
func (s *strokes) indented(view []byte, i int, before byte) {
	first := i
	for s.classes[view[i]] == classSpace {
		i++
	}
	if i > first && view[i] != '\n' {
		s.recent[uint16(before)|uint16(view[first])<<8]--
		s.recent[uint16(view[i-1])|uint16(view[i])<<8]--
		s.recent[uint16(before)|uint16(view[i])<<8]++
	}
}

// trailing takes back the space that ends at last, at the end of a line. Where
// a line feed is there, that follows what is before the space.
func (s *strokes) trailing(view []byte, last int, lineFeed bool) {
	i := last
	for i >= 0 && s.classes[view[i]] == classSpace {
		i--
	}
	before := byte(0)
	if i >= 0 {
		before = view[i]
	}
	s.recent[uint16(before)|uint16(view[i+1])<<8]--
	if lineFeed {
		s.recent[uint16(view[last])|'\n'<<8]--
		s.recent[uint16(before)|'\n'<<8]++
	}
}

// letters counts the characters outside of ASCII.
func (s *strokes) letters(text []byte) {
	const most = 1 << 14
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		if r >= utf8.RuneSelf && (r != utf8.RuneError || n == 3) && (s.runes[r] > 0 || len(s.runes) < most) {
			s.runes[r]++
		}
		i += n
	}
}

// addRaw counts all characters of a source.
func (s *strokes) addRaw(src []byte) {
	before := byte(0)
	for _, b := range src {
		s.recent[uint16(before)|uint16(b)<<8]++
		before = b
	}
	s.letters(src)
	text := append(src[:len(src):len(src)], make([]byte, padding)...)
	marksBefore := uint64(0)
	for at := 0; at < len(src); at += blockBytes {
		var marks uint64
		for i := 0; i < blockBytes; i += wordBytes {
			marks |= gathered(marksIn(binary.LittleEndian.Uint64(text[at+i:]))) << i
		}
		s.runs.add(text, at, marks, marksBefore)
		marksBefore = marks >> (blockBytes - 1)
	}
}

// settle keeps the recent counts from overflowing.
func (s *strokes) settle() {
	if s.follows == nil {
		s.follows = make([]uint64, 1<<16)
	}
	for at, n := range s.recent {
		if n != 0 {
			s.follows[at] += uint64(n)
			s.recent[at] = 0
		}
	}
}

func (s *strokes) merge(o *strokes) {
	s.settle()
	o.settle()
	sum(s.follows, o.follows)
	for r, n := range o.runes {
		s.runes[r] += n
	}
	s.runs.merge(&o.runs)
}

// put fills the sections of a table. Raw counts have each space and tab.
func (s *strokes) put(t *Table, raw bool) {
	s.settle()
	for at, n := range s.follows {
		if n == 0 {
			continue
		}
		first, second := at&0xff, at>>8
		a, b := int(s.classes[first]), int(s.classes[second])
		if a == classSpace && b == classSpace && !raw {
			continue
		}
		if second < utf8.RuneSelf {
			t.put(Symbol, s.symbol(second, raw), n)
		}
		if texts := classTexts(a, b); texts != "" {
			t.put(Pair, texts, n)
		}
	}
	delete(t.counts[Symbol], "")
	for r, n := range s.runes {
		t.put(Symbol, string(r), n)
	}
	s.runs.put(t)
}

// symbol spells the symbol that a byte of ASCII is, "" if it is none. In a code
// view tabs between words are spaces.
func (s *strokes) symbol(b int, raw bool) string {
	switch {
	case s.classes[b] == classBody && !raw:
		return ""
	case s.classes[b] == classSpace && !raw:
		return "Space"
	}
	return symbolText(rune(b))
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
