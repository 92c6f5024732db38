//go:build unix

package screen

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"sync"
	"time"

	"github.com/gdamore/tcell/v2"
	"golang.org/x/sys/unix"
)

// openTerminal returns the terminal of the process, and how bytes came from it.
func openTerminal() (tcell.Screen, *reading, error) {
	known, err := tcell.LookupTerminfo(os.Getenv("TERM"))
	if err != nil {
		return nil, nil, err
	}
	info := *known
	info.PadChar = "" // or tcell sleeps where a VT100 on a serial line had to be waited for
	const device = "/dev/tty"
	tty, err := tcell.NewDevTtyFromDev(device)
	if err != nil {
		return nil, nil, err
	}
	watched := &watchedTty{Tty: tty, fd: -1}
	if fd, err := unix.Open(device, unix.O_RDONLY|unix.O_NOCTTY|unix.O_CLOEXEC, 0); err == nil {
		watched.fd = fd
	}
	s, err := tcell.NewTerminfoScreenFromTtyTerminfo(watched, &info)
	return s, &watched.reading, err
}

// watchedTty notes how bytes come, and tells an Escape that comes alone from
// one that begins a sequence.
type watchedTty struct {
	tcell.Tty
	reading reading
	fd      int // the same terminal, to look whether more has come; -1: it cannot be looked
	once    sync.Once
}

func (t *watchedTty) Read(b []byte) (int, error) {
	n, err := t.Tty.Read(b)
	if n == 0 {
		return n, err
	}
	t.reading.note(time.Now(), b[:n])
	if from, keys := unended(b[:n]); keys != "" && from+len(keys) <= len(b) && !t.more(escapeAlone) {
		n = from + copy(b[from:], keys)
	}
	return n, err
}

func (t *watchedTty) Close() error {
	t.once.Do(func() {
		if t.fd >= 0 {
			_ = unix.Close(t.fd)
		}
	})
	return t.Tty.Close()
}

// escapeAlone is how long an Escape is waited with for what may belong to it.
// What a terminal sends for a key comes in one piece, or on a slow line one
// byte every few ms; fingers need longer.
const escapeAlone = 25 * time.Millisecond

// escapeKey is the Escape key as the extended key protocol sends it (CSI u):
// what comes after it can belong to nothing but another key.
const escapeKey = "\x1b[27u"

// unended tells whether bytes end in what may be the beginning of a sequence:
// from where, and the same as keys of their own, in the extended key protocol.
// A character after an Escape is Alt with it there, as it is elsewhere.
func unended(b []byte) (from int, keys string) {
	if rest := bytes.TrimRight(b, "\x1b"); len(rest) < len(b) {
		return len(rest), strings.Repeat(escapeKey, len(b)-len(rest))
	}
	from = len(b) - 2
	if from < 0 || b[from] != '\x1b' {
		return 0, ""
	}
	switch last := b[from+1]; last {
	case '[', ']', 'N', 'O', 'P', 'X', '^', '_', '\\': // ECMA-48: what introduces or ends a sequence
		return from, fmt.Sprintf("\x1b[%d;3u", last)
	}
	return 0, ""
}

// more tells whether bytes come within a time.
func (t *watchedTty) more(within time.Duration) bool {
	if t.fd < 0 || t.fd >= unix.FD_SETSIZE {
		return true // not known: tcell has to wait and see
	}
	for end := time.Now().Add(within); ; {
		left := time.Until(end)
		if left <= 0 {
			return false
		}
		var set unix.FdSet
		set.Set(t.fd)
		timeout := unix.NsecToTimeval(int64(left))
		n, err := unix.Select(t.fd+1, &set, nil, nil, &timeout)
		if err == unix.EINTR {
			continue
		}
		return n > 0 || err != nil
	}
}
