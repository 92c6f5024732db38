package corpus

import (
	"testing"
	"unicode"
)

// Which bytes are marks is told by package unicode: punctuation and symbols.
// Every byte stands beside every other, so that a carry would show.
func TestMarksOfAWord(t *testing.T) {
	ascii := func(b int) bool { return b < 0x80 }
	isMark := func(b int) bool { return ascii(b) && (unicode.IsPunct(rune(b)) || unicode.IsSymbol(rune(b))) }
	for first := range 256 {
		for second := range 256 {
			word := uint64(first)<<24 | uint64(second)<<32
			want := uint64(0)
			if isMark(first) {
				want |= 0x80 << 24
			}
			if isMark(second) {
				want |= 0x80 << 32
			}
			if got := marksAmong(word); got != want {
				t.Fatalf("marks among %#x: %#x, want %#x", word, got, want)
			}
			if got := marksIn(word); ascii(first) && ascii(second) && got != want {
				t.Fatalf("marks in %#x: %#x, want %#x", word, got, want)
			}
		}
	}
}
