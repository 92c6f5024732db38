package corpus

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
)

// Recording says what keys a recording of terminal input holds. No text is
// kept of it.
type Recording struct {
	Keys    Counts // strokes that text does not show, by symbol
	Text    int64  // strokes that text shows: characters, spaces, line ends
	Pasted  int64  // bytes that were pasted
	Replies int64  // answers of the terminal, mouse reports and the like, which no key sends
}

// maxRecording is far above what a person types in a month, in bytes.
const maxRecording = 64 << 20

// ErrTooLong is told of what is too long for a recording of keys.
var ErrTooLong = errors.New("longer than 64 MiB: no recording of keys")

// ErrScreen is told of a recording that has what a program wrote on the screen,
// alone or among what was typed.
var ErrScreen = errors.New("a recording of what the screen showed, not of keys alone")

// ReadRecording reads raw terminal input: the bytes that keys send, as ECMA-48
// and xterm's control sequences have them, also with the modifiers of xterm
// and of CSI u. The first and last lines that the script command writes are
// not counted.
//
// What the bytes do not tell is read so: ESC and a character are Escape and
// the character, as a modal editor has it, not a chord with Alt; the bytes of
// Tab, Enter, Escape and Backspace are those keys, not chords with Control. A
// line feed is Enter where the recording has no carriage return, else
// Control+j; backspace (BS) is Backspace where it has no DEL, else Control+h.
func ReadRecording(r io.Reader) (*Recording, error) {
	src, err := io.ReadAll(io.LimitReader(r, maxRecording+1))
	if err != nil {
		return nil, err
	}
	if len(src) > maxRecording {
		return nil, ErrTooLong
	}
	src = withoutFrame(src)
	if onScreen(src) {
		return nil, ErrScreen
	}
	k := &keyReader{
		src:      src,
		lineFeed: bytes.IndexByte(src, '\r') < 0,
		delete:   bytes.IndexByte(src, 0x7f) >= 0,
		out:      &Recording{Keys: Counts{}},
	}
	for k.i < len(src) {
		k.next()
	}
	return k.out, nil
}

// onScreen tells whether bytes went to a terminal: they set modes of it (DECSET
// and DECRST), or end lines with CR LF, as terminals print them (ONLCR of
// POSIX termios); keys send neither.
func onScreen(src []byte) bool {
	const few = 2
	ends := bytes.Count(src, []byte("\r\n"))
	return ends >= few && 4*ends >= bytes.Count(src, []byte("\r")) || regexp.MustCompile(`\x1b\[\?[0-9;]+[hl]`).Match(src)
}

// withoutFrame cuts the lines off that script (util-linux) writes before and
// after: "Script started on … [COMMAND=…]", in the user's language; also where a
// recording was added to another, so that they stand in the middle.
func withoutFrame(src []byte) []byte {
	const (
		started = `[^\x00-\x1f]{10,500}\[[^\x00-\x1f]*\]\n`
		done    = `\n[^\x00-\x1f]{10,500}\[(COMMAND_EXIT_CODE="|<)[^\x00-\x1f]*\]`
	)
	first := regexp.MustCompile(`^` + started)
	joint := regexp.MustCompile(done + `\n` + started)
	last := regexp.MustCompile(done + `\n?$`)
	at := first.FindIndex(src[:min(len(src), 4096)])
	if at == nil {
		return src
	}
	src = joint.ReplaceAllLiteral(src[at[1]:], nil)
	tail := max(0, len(src)-4096)
	if at := last.FindIndex(src[tail:]); at != nil {
		src = src[:tail+at[0]]
	}
	return src
}

// Strokes is the number of strokes in the recording.
func (r *Recording) Strokes() float64 { return float64(r.Text) + r.Keys.Total() }

// Table makes a table of the strokes that text does not show, with their share
// of all strokes as its weight.
func (r *Recording) Table(name string) *Table {
	t := &Table{Name: name, counts: map[Section]Counts{Symbol: {}}}
	for key, n := range r.Keys {
		t.add(Symbol, key, n)
	}
	if all := r.Strokes(); all > 0 {
		t.Weight = r.Keys.Total() / all
	}
	t.Notes = []string{fmt.Sprintf("counted from a recording of %.0f strokes; the %d of them that are text are not kept", r.Strokes(), r.Text)}
	return t
}
