package corpus

import (
	"encoding/binary"
	"math/bits"
)

// runs counts runs of marks.
type runs struct {
	short []uint64 // of one or two marks, by their bytes, the first lowest
	long  *tally   // of three to eight, packed
}

// maxRun is the length of the longest run of marks that is counted.
const maxRun = 8

func newRuns() runs { return runs{short: make([]uint64, 1<<16), long: newTally(1 << 14)} }

// add counts the runs that begin in the 64 bytes of a view at block. There is
// padding after the view.
func (r *runs) add(view []byte, block int, marks, before uint64) {
	starts := marks &^ (marks<<1 | before)
	for ; starts != 0; starts &= starts - 1 {
		at := bits.TrailingZeros64(starts)
		length := bits.TrailingZeros64(^(marks >> at))
		if at+length == 64 {
			length += restOf(view[block+64:])
		}
		text := binary.LittleEndian.Uint64(view[block+at:])
		switch {
		case length <= 2:
			r.short[text&(1<<(8*length)-1)]++
		case length <= maxRun:
			r.long.add(text&(^uint64(0)>>(64-8*length)), 0)
		}
	}
}

// restOf is the length of the run that goes on at the beginning of text.
func restOf(text []byte) (n int) {
	for n <= maxRun && marksIn(uint64(text[n]))&0x80 != 0 {
		n++
	}
	return n
}

func (r *runs) merge(o *runs) {
	sum(r.short, o.short)
	r.long.merge(o.long.slots)
}

func (r *runs) put(t *Table) {
	for text, n := range r.short {
		t.put(Run, unpack(uint64(text)), n)
	}
	for _, s := range r.long.top(-1) {
		t.put(Run, unpack(s.key), s.n)
	}
}

// The bytes of a word are compared with a bound all at once, by adding what
// carries those from the bound on into their high bit.
const (
	eachByte  = 0x0101010101010101
	highBits  = 0x80 * eachByte
	wordBytes = 8
)

// marksIn sets the high bit of each byte that is an ASCII mark.
func marksIn(x uint64) uint64 {
	low := x &^ highBits
	small := low | 0x20*eachByte // letters of both cases
	printable := (low + (0x80-'!')*eachByte) &^ (low + (0x80-0x7f)*eachByte)
	digit := (low + (0x80-'0')*eachByte) &^ (low + (0x80-':')*eachByte)
	letter := (small + (0x80-'a')*eachByte) &^ (small + (0x80-'{')*eachByte)
	return printable &^ digit &^ letter &^ x & highBits
}

// breaksIn sets the high bit of each byte that is a line feed.
func breaksIn(x uint64) uint64 {
	x ^= '\n' * eachByte
	return ^(x | (x&^highBits + 0x7f*eachByte)) & highBits
}

// gathered are the eight high bits of a word as the lowest bits, the first
// byte's lowest.
func gathered(high uint64) uint64 { return high * 0x0002040810204081 >> 56 }
