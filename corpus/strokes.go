package corpus

import (
	"encoding/binary"
	"unicode/utf8"
)

// strokes counts what is exact in every table: symbols, pairs of classes and
// runs of marks. Nearly all of it comes from how often each byte follows each
// other, so that a byte costs one addition; longer runs are found 64 bytes at a
// time.
type strokes struct {
	*alphabet
	recent  *[1 << 16]uint32 // by two bytes in a row, the first lowest
	follows []uint64         // the same, of earlier sources
	runes   map[rune]uint64
	raw     bool // all characters are counted
	runs
	oddBefore uint64 // what odd was after the last source
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
	s.count(view, n)
	s.indented(view, 0, 0)
	odd, ends := s.odd() != s.oddBefore, s.classes[view[n-1]] == classSpace
	if odd {
		s.spaces(view, n)
	}
	if ends {
		s.trailing(view, n-1, false)
	}
	if odd || ends {
		s.oddBefore = s.odd()
	}
}

// count counts the first n bytes of a text, after which there is the padding.
func (s *strokes) count(text []byte, n int) {
	s.recent[int(text[0])<<8]++ // after nothing
	marksBefore, foreign := uint64(0), false
	at := 0
	for ; at < n; at += blockBytes {
		var marks, all uint64
		block := (*[blockBytes + 1]byte)(text[at:])
		for i := 0; i < blockBytes; i += wordBytes {
			word := binary.LittleEndian.Uint64(block[i:])
			all |= word
			marks |= gathered(marksIn(word)) << i
			pairsOf(s.recent, (*[wordBytes + 1]byte)(block[i:]))
		}
		if all&highBits != 0 {
			foreign, marks = true, marksOf(block)
		}
		s.runs.add(text, at, marks, marksBefore)
		marksBefore = marks >> (blockBytes - 1)
	}
	s.takeBack(text, n, at)
	if foreign {
		s.letters(text[:n])
	}
}

// marksOf tells the marks of a block that is not all ASCII, the first byte's
// bit lowest.
func marksOf(block *[blockBytes + 1]byte) (marks uint64) {
	for i := 0; i < blockBytes; i += wordBytes {
		marks |= gathered(marksAmong(binary.LittleEndian.Uint64(block[i:]))) << i
	}
	return marks
}

// pairsOf counts what follows what in nine bytes.
func pairsOf(recent *[1 << 16]uint32, text *[wordBytes + 1]byte) {
	recent[binary.LittleEndian.Uint16(text[0:])]++
	recent[binary.LittleEndian.Uint16(text[1:])]++
	recent[binary.LittleEndian.Uint16(text[2:])]++
	recent[binary.LittleEndian.Uint16(text[3:])]++
	recent[binary.LittleEndian.Uint16(text[4:])]++
	recent[binary.LittleEndian.Uint16(text[5:])]++
	recent[binary.LittleEndian.Uint16(text[6:])]++
	recent[binary.LittleEndian.Uint16(text[7:])]++
}

// takeBack takes back the pairs of bytes that lie after the end of the view,
// from n, that were counted up to the end of a block.
func (s *strokes) takeBack(view []byte, n, end int) {
	for i := n; i <= end; i++ {
		s.recent[uint16(view[i-1])|uint16(view[i])<<8]--
	}
}

// letters counts the characters outside of ASCII.
func (s *strokes) letters(text []byte) {
	const most = 1 << 14
	for i := 0; i < len(text); {
		if len(text)-i >= wordBytes && binary.LittleEndian.Uint64(text[i:])&highBits == 0 {
			i += wordBytes
			continue
		}
		r, n := utf8.DecodeRune(text[i:])
		if r >= utf8.RuneSelf && (r != utf8.RuneError || n == 3) && (s.runes[r] > 0 || len(s.runes) < most) {
			s.runes[r]++
		}
		i += n
	}
}

// addRaw counts all characters of a source.
func (s *strokes) addRaw(src []byte) {
	s.raw = true
	if len(src) > 0 {
		s.count(append(src[:len(src):len(src)], make([]byte, padding)...), len(src))
	}
}

// settle keeps the recent counts from overflowing. In a code view what comes
// after a tab comes after a line feed.
func (s *strokes) settle() {
	if s.follows == nil {
		s.follows = make([]uint64, 1<<16)
	}
	s.oddBefore = 0
	for at, n := range s.recent {
		if n == 0 {
			continue
		}
		s.recent[at] = 0
		first, second := at&0xff, at>>8
		if !s.raw && first == '\n' && second == '\t' {
			continue
		}
		if !s.raw && first == '\t' && s.classes[second] != classSpace {
			at = '\n' | second<<8
		}
		s.follows[at] += uint64(n)
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
	s.runs.put(t, s.follows)
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
