package corpus

import "unicode/utf8"

// strokes counts what is exact in every table: symbols, pairs of classes and
// runs of marks. For all but spaces it takes the same few steps for each byte,
// without branches that depend on it: that is what makes it fast.
type strokes struct {
	*alphabet
	symbols [256]uint64
	runes   map[rune]uint64
	pairs   [2 << 12]uint64 // by two classes, of 6 bits each; apart for even and odd places, which lets the processor add twice at once
	single  [256]uint64     // runs of one mark
	double  []uint64        // runs of two, by both bytes
	runs    *tally          // runs of three to eight, the last lowest
	found   []uint64        // runs of this source
}

// The longest run of marks that is counted.
const maxRun = 8

func newStrokes(a *alphabet) *strokes {
	return &strokes{alphabet: a, runes: map[rune]uint64{}, double: make([]uint64, 1<<16), runs: newTally(1 << 16)}
}

// add counts the first n bytes of a view, after which there is a line feed.
func (s *strokes) add(view []byte, n int) {
	if len(s.found) < n+2 {
		s.found = make([]uint64, 2*n+2)
	}
	found, runs := s.found, 0
	run := uint64(0)
	prev := uint(classNone)
	for i := 0; i < n; i++ {
		b := view[i]
		class := uint(s.classes[b])
		if class < classLower {
			found[runs] = run
			runs += int((run | -run) >> 63)
			run = 0
			i, prev = s.apart(view, i, n, class, prev)
			continue
		}
		s.symbols[b]++
		s.pairs[(uint(i)&1<<12|prev<<6|class)&(2<<12-1)]++
		prev = class
		mark := s.marks[b]
		found[runs] = run
		runs += int((run | -run) >> 63 &^ mark)
		run = (run<<8 | uint64(b)) & mark
		if run>>56 != 0 && s.marks[view[i+1]] != 0 {
			i, run = s.pastRun(view, i, n), 0
			prev = uint(s.classes[view[i]])
		}
	}
	found[runs] = run
	runs += int((run | -run) >> 63)
	s.count(found[:runs])
}

// apart counts what is no letter, digit or mark, and returns the last place
// that it is at.
func (s *strokes) apart(view []byte, i, n int, class, prev uint) (int, uint) {
	switch class {
	case classBreak:
		s.symbols['\n']++
		s.pairs[prev<<6|class]++
	case classOther:
		s.letter(view[i:], 1)
	case classSpace:
		for i+1 < n && s.classes[view[i+1]] == classSpace {
			i++
		}
		if prev == classBreak || prev == classNone || view[i+1] == '\n' {
			return i, prev // indentation, or the end of the line
		}
		s.symbols[' ']++
		s.pairs[prev<<6|class]++
	}
	return i, class
}

// letter counts n times the character that begins here, if one does.
func (s *strokes) letter(src []byte, n uint64) {
	const most = 1 << 14
	if r, _ := utf8.DecodeRune(src); r != utf8.RuneError && (s.runes[r] > 0 || len(s.runes) < most) {
		s.runes[r] += n
	}
}

// pastRun counts the rest of a run that is too long to be counted as one, and
// returns its last place.
func (s *strokes) pastRun(view []byte, i, n int) int {
	for i+1 < n && s.marks[view[i+1]] != 0 {
		s.pairs[uint(s.classes[view[i]])<<6|uint(s.classes[view[i+1]])]++
		i++
		s.symbols[view[i]]++
	}
	return i
}

func (s *strokes) count(runs []uint64) {
	for _, run := range runs {
		switch {
		case run < 1<<8:
			s.single[run]++
		case run < 1<<16:
			s.double[run]++
		default:
			s.runs.add(run, 0)
		}
	}
}

// addRaw counts all characters of a source.
func (s *strokes) addRaw(src []byte) {
	run, runLen := uint64(0), 0
	prev := uint(classNone)
	for i, b := range src {
		class := uint(s.classes[b])
		s.pairs[prev<<6|class]++
		prev = class
		if class == classOther {
			s.letter(src[i:], 1)
		} else {
			s.symbols[b]++
		}
		if class >= classMark {
			run = run<<8 | uint64(b)
			runLen++
			continue
		}
		if 0 < runLen && runLen <= maxRun {
			s.count([]uint64{run})
		}
		run, runLen = 0, 0
	}
	if 0 < runLen && runLen <= maxRun {
		s.count([]uint64{run})
	}
}

func (s *strokes) merge(o *strokes) {
	for r, n := range o.runes {
		s.runes[r] += n
	}
	sum(s.symbols[:], o.symbols[:])
	sum(s.pairs[:], o.pairs[:])
	sum(s.single[:], o.single[:])
	sum(s.double, o.double)
	s.runs.merge(o.runs.slots)
}

// put fills the sections of a table.
func (s *strokes) put(t *Table) {
	for b, n := range s.symbols {
		t.put(Symbol, symbolText(rune(b)), n)
	}
	for r, n := range s.runes {
		t.put(Symbol, symbolText(r), n)
	}
	for at, n := range s.pairs {
		if n == 0 {
			continue // not all numbers are classes
		}
		if texts := classTexts(at>>6&63, at&63); texts != "" {
			t.put(Pair, texts, n)
		}
	}
	for run, n := range s.single {
		t.put(Run, unpackRun(uint64(run)), n)
	}
	for run, n := range s.double {
		t.put(Run, unpackRun(uint64(run)), n)
	}
	for _, slot := range s.runs.top(-1) {
		t.put(Run, unpackRun(slot.key), slot.n)
	}
}

// unpackRun returns the text of a run, whose last byte is the lowest.
func unpackRun(run uint64) string {
	var text []byte
	for at := 56; at >= 0; at -= 8 {
		if b := byte(run >> at); b != 0 {
			text = append(text, b)
		}
	}
	return string(text)
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
