package corpus

import "math/bits"

// wordTally counts words and numbers of at most 16 bytes as they are written.
// What is counted by letter, by name and by shape comes from it at the end, so
// that a word costs no more than one look-up. It has the rules of a tally.
type wordTally struct {
	slots []wordSlot
	used  int
	most  int
}

type wordSlot struct {
	lo, hi uint64 // the bytes, packed; 0: free
	n      uint64
	last   uint32 // the file it was last met in
	files  uint32
	token  token // what it is in a line
}

func newWordTally(most int) *wordTally {
	return &wordTally{slots: make([]wordSlot, 1<<12), most: most}
}

// at finds the slot of a word, or makes one, whose n is 0.
func (t *wordTally) at(lo, hi uint64) *wordSlot {
	mask := uint64(len(t.slots) - 1)
	for i := t.home(lo, hi) & mask; ; i = (i + 1) & mask {
		s := &t.slots[i]
		if s.lo == lo && s.hi == hi {
			return s
		}
		if s.lo == 0 {
			s.lo, s.hi = lo, hi
			t.used++
			return s
		}
	}
}

func (t *wordTally) home(lo, hi uint64) uint64 {
	h := (lo ^ bits.RotateLeft64(hi, 29)) * 0x9E3779B97F4A7C15
	return h ^ h>>32
}

// grow makes room where more than half is used. It returns the slots that had
// to go.
func (t *wordTally) grow() (gone []wordSlot) {
	if 2*t.used < len(t.slots) {
		return nil
	}
	old, size := t.slots, 2*len(t.slots)
	rare := uint64(0)
	if t.used >= t.most {
		size, rare = len(t.slots), t.median()
	}
	t.slots, t.used = make([]wordSlot, size), 0
	for _, s := range old {
		switch {
		case s.lo == 0:
		case s.n <= rare:
			gone = append(gone, s)
		default:
			*t.at(s.lo, s.hi) = s
		}
	}
	return gone
}

// median is a count that at least half of the words do not exceed.
func (t *wordTally) median() uint64 {
	var byCount [64]int
	for _, s := range t.slots {
		if s.lo != 0 {
			byCount[bits.Len64(s.n)]++
		}
	}
	sum := 0
	for length, words := range byCount {
		if sum += words; 2*sum >= t.used {
			return 1<<length - 1
		}
	}
	return 0
}

// merge adds words counted in other files.
func (t *wordTally) merge(o *wordTally) (gone []wordSlot) {
	for _, s := range o.slots {
		if s.lo == 0 {
			continue
		}
		to := t.at(s.lo, s.hi)
		to.n += s.n
		to.files += s.files
		to.token = s.token
		gone = append(gone, t.grow()...)
	}
	return gone
}
