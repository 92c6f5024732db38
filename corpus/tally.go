package corpus

import (
	"cmp"
	"math/bits"
	"slices"
)

// tally counts 64-bit keys in a hash table with open addressing. It holds at
// most most keys, or 256 if that is more; when it is full the rarer half goes,
// so that what is counted of a key that came back is a lower bound.
type tally struct {
	slots []slot
	used  int
	most  int
}

type slot struct {
	key uint64 // 0: free
	n   uint64
}

func newTally(most int) *tally { return &tally{slots: make([]slot, 512), most: most} }

// add counts a key, which is not 0. It tells whether the key is new.
func (t *tally) add(key uint64) bool {
	s := t.at(key)
	s.n++
	return s.n == 1
}

// at finds the slot of a key, or makes one.
func (t *tally) at(key uint64) *slot {
	if 2*t.used >= len(t.slots) {
		t.makeRoom()
	}
	mask := uint64(len(t.slots) - 1)
	for i := t.home(key); ; i = (i + 1) & mask {
		switch s := &t.slots[i]; s.key {
		case key:
			return s
		case 0:
			s.key = key
			t.used++
			return s
		}
	}
}

// home is where the search for a key begins (Fibonacci hashing: Knuth, The Art
// of Computer Programming, section 6.4).
func (t *tally) home(key uint64) uint64 {
	return key * 0x9E3779B97F4A7C15 >> (64 - bits.Len(uint(len(t.slots)-1)))
}

func (t *tally) makeRoom() {
	kept, size := t.slots, 2*len(t.slots)
	if t.used >= t.most {
		kept, size = t.top(t.used/2), len(t.slots)
	}
	t.slots, t.used = make([]slot, size), 0
	t.merge(kept)
}

// merge adds counts of other files.
func (t *tally) merge(slots []slot) {
	for _, s := range slots {
		if s.key != 0 {
			t.at(s.key).n += s.n
		}
	}
}

// top returns the n slots with the highest counts, all where n < 0; equal
// counts by key.
func (t *tally) top(n int) []slot {
	all := make([]slot, 0, t.used)
	for _, s := range t.slots {
		if s.key != 0 {
			all = append(all, s)
		}
	}
	slices.SortFunc(all, func(a, b slot) int {
		return cmp.Or(cmp.Compare(b.n, a.n), cmp.Compare(a.key, b.key))
	})
	if n >= 0 && n < len(all) {
		all = all[:n]
	}
	return all
}

// atLeast returns the n slots with the highest counts, and all that are equal
// to the last of them.
func (t *tally) atLeast(n int) []slot {
	all := t.top(-1)
	for n < len(all) && all[n].n == all[n-1].n {
		n++
	}
	return all[:min(n, len(all))]
}

// Short texts are packed into keys, the first byte lowest.

// unpack returns the text of a packed key.
func unpack(key uint64) string {
	var b []byte
	for ; key != 0; key >>= 8 {
		b = append(b, byte(key))
	}
	return string(b)
}
