package screen

import (
	"sync/atomic"
	"time"
	"unicode/utf8"
)

// reading is how bytes last came from the terminal. The goroutine that reads
// writes it, the loop looks at it.
type reading struct {
	at    atomic.Int64 // when, ns
	count atomic.Int32 // how many keys came at once
}

// pasteFrom is how many keys that come at once are no typing, also where the
// terminal does not say that it pastes: more than come together when a link
// has stood still for a second or two.
const pasteFrom = 24

func (r *reading) note(at time.Time, b []byte) {
	r.count.Store(int32(keysIn(b)))
	r.at.Store(at.UnixNano())
}

// keysIn estimates how many keys bytes stand for. A sequence that begins with
// Escape is taken to go on to where the next one begins.
func keysIn(b []byte) int {
	n := 0
	for i := 0; i < len(b); n++ {
		if b[i] != '\x1b' {
			_, size := utf8.DecodeRune(b[i:])
			i += size
			continue
		}
		for i++; i < len(b) && b[i] != '\x1b'; i++ {
		}
	}
	return n
}

// together tells whether the keys that last came had come at once, so that
// none has a time of its own.
func (r *reading) together() bool { return r != nil && r.count.Load() > 1 }

// pasted returns how many keys came at once, if they were too many to be typed.
func (r *reading) pasted() (int, bool) {
	if r == nil {
		return 0, false
	}
	n := int(r.count.Load())
	return n, n >= pasteFrom
}
