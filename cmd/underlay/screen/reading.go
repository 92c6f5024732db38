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
	paste atomic.Bool  // they are part of what was pasted
}

// pasteFrom is how many keys that come at once are no typing, also where the
// terminal does not say that it pastes: more than come together when a link
// has stood still for a second or two.
const pasteFrom = 24

// pasteGap is the silence that ends a paste, whose last piece may be short.
// Fingers leave longer ones between keys, at the latest once they are told.
const pasteGap = 100 * time.Millisecond

func (r *reading) note(at time.Time, b []byte) {
	n, silence := keysIn(b), time.Duration(at.UnixNano()-r.at.Load())
	r.paste.Store(n >= pasteFrom || r.paste.Load() && silence < pasteGap)
	r.count.Store(int32(n))
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

// pasted returns how many keys came at once, if they were not typed.
func (r *reading) pasted() (int, bool) {
	if r == nil || !r.paste.Load() {
		return 0, false
	}
	return int(r.count.Load()), true
}
