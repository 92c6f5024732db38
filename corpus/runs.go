package corpus

import (
	"encoding/binary"
	"math/bits"
)

// runs counts runs of marks. Those of three and more are counted as they are
// met; how often one or two stand alone follows from how often each byte follows
// each other.
type runs struct {
	long   *tally   // of three to eight, packed
	marks  []uint64 // in runs of three and more, by byte
	inside []uint64 // two marks in a row in such runs, by their bytes, the first lowest
}

// maxRun is the length of the longest run of marks that is counted.
const maxRun = 8

func newRuns() runs {
	return runs{long: newTally(1 << 14), marks: make([]uint64, 1<<8), inside: make([]uint64, 1<<16)}
}

// add counts the runs of three and more that begin in the 64 bytes of a view at
// block, of which marks tells the marks; before is 1 where one is right before
// them. There is padding after the view.
func (r *runs) add(view []byte, block int, marks, before uint64) {
	const second, third = 1 << 63, 3 << 62 // what the next block tells
	starts := marks &^ (marks<<1 | before) & (marks>>1 | second) & (marks>>2 | third)
	for ; starts != 0; starts &= starts - 1 {
		at := bits.TrailingZeros64(starts)
		length := bits.TrailingZeros64(^(marks >> at))
		if at+length == blockBytes {
			length += restOf(view[block+blockBytes:])
		}
		if length > 2 {
			r.addLong(view[block+at:], length)
		}
	}
}

func (r *runs) addLong(view []byte, length int) {
	if length <= maxRun {
		r.long.add(binary.LittleEndian.Uint64(view) & (^uint64(0) >> (64 - 8*length)))
	}
	r.marks[view[0]]++
	for i := 1; i < length; i++ {
		r.marks[view[i]]++
		r.inside[int(view[i-1])|int(view[i])<<8]++
	}
}

// restOf is the length of the run that goes on at the beginning of text.
func restOf(text []byte) (n int) {
	for n < len(text) && marksAmong(uint64(text[n]))&0x80 != 0 {
		n++
	}
	return n
}

func (r *runs) merge(o *runs) {
	sum(r.marks, o.marks)
	sum(r.inside, o.inside)
	r.long.merge(o.long.slots)
}

// put fills Run. follows counts two bytes in a row, by their bytes, the first
// lowest.
func (r *runs) put(t *Table, follows []uint64) {
	var alone [1 << 8]uint64
	for at, n := range follows {
		alone[at>>8] += n
	}
	for i := range len(asciiMarks) {
		for j := range len(asciiMarks) {
			first, second := asciiMarks[i], asciiMarks[j]
			at := int(first) | int(second)<<8
			two := follows[at] - r.inside[at]
			alone[first] -= two
			alone[second] -= two
			t.put(Run, string([]byte{first, second}), two)
		}
	}
	for i := range len(asciiMarks) {
		mark := asciiMarks[i]
		t.put(Run, string([]byte{mark}), alone[mark]-r.marks[mark])
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

// marksIn sets the high bit of each byte that is an ASCII mark, in a word that
// is all ASCII: of the bounds between marks and others, a mark has passed an
// odd number. Letters of both cases are compared at once.
func marksIn(word uint64) uint64 {
	letters := word | 0x20*eachByte
	return highBits & ((word + (0x80-'!')*eachByte) ^ (word + (0x80-'0')*eachByte) ^ (word + (0x80-':')*eachByte) ^
		(letters + (0x80-'a')*eachByte) ^ (letters + (0x80-'{')*eachByte) ^ (word + (0x80-0x7f)*eachByte))
}

// marksAmong does so in any word.
func marksAmong(word uint64) uint64 { return marksIn(word&^highBits) &^ word }

// gathered are the eight high bits of a word as the lowest bits, the first
// byte's lowest.
func gathered(high uint64) uint64 { return high * 0x0002040810204081 >> 56 }
