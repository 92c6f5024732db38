//go:build unix

package screen

import (
	"os"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/gdamore/tcell/v2/terminfo"

	"underlay/drills/board"
)

// line is a terminal whose bytes come through a pipe, at most some at a time.
type line struct {
	tcell.Tty
	in, out *os.File
	piece   int
}

func newLine(t *testing.T, piece int) (*line, *watchedTty) {
	t.Helper()
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	l := &line{in: in, out: out, piece: piece}
	t.Cleanup(func() { in.Close(); out.Close() })
	return l, &watchedTty{Tty: l, fd: int(in.Fd())}
}

func (l *line) Start() error                { return nil }
func (l *line) Stop() error                 { return nil }
func (l *line) Drain() error                { return l.out.Close() }
func (l *line) NotifyResize(func())         {}
func (l *line) Close() error                { return nil }
func (l *line) Read(b []byte) (int, error)  { return l.in.Read(b[:min(l.piece, len(b))]) }
func (l *line) Write(b []byte) (int, error) { return len(b), nil }
func (l *line) WindowSize() (tcell.WindowSize, error) {
	return tcell.WindowSize{Width: 80, Height: 24}, nil
}

func (l *line) send(t *testing.T, bytes string) {
	t.Helper()
	if _, err := l.out.WriteString(bytes); err != nil {
		t.Fatal(err)
	}
}

// An Escape that nothing follows is told as the key; what a terminal sends in
// one piece, or on a slow line byte by byte, stays as it is.
func TestEscapeAlone(t *testing.T) {
	for _, c := range []struct {
		sent  string
		piece int
		want  string // of the first reading
	}{
		{"\x1b", 128, escapeKey},
		{"\x1b\x1b", 128, escapeKey + escapeKey},
		{"j\x1b", 128, "j" + escapeKey},
		{"\x1b[A", 128, "\x1b[A"},
		{"\x1bd", 128, "\x1bd"},
		{"\x1bN", 128, "\x1b[78;3u"},
		{"x\x1b^", 128, "x\x1b[94;3u"},
		{"\x1bOP", 128, "\x1bOP"},
		{"N", 128, "N"},
		{"\x1b[A", 1, "\x1b"}, // more has come, and belongs to it
		{"x", 128, "x"},
	} {
		l, tty := newLine(t, c.piece)
		l.send(t, c.sent)
		b := make([]byte, 128)
		n, err := tty.Read(b)
		if got := string(b[:n]); err != nil || got != c.want {
			t.Errorf("%q, %d bytes at a time: %q (%v), want %q", c.sent, c.piece, got, err, c.want)
		}
	}
}

// Through tcell: keys that come after an Escape are keys of their own, also
// those with which sequences begin.
func TestKeysAfterEscape(t *testing.T) {
	ti, err := terminfo.LookupTerminfo("xterm-256color")
	if err != nil {
		t.Fatal(err)
	}
	l, tty := newLine(t, 128)
	s, err := tcell.NewTerminfoScreenFromTtyTerminfo(tty, ti)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Init(); err != nil {
		t.Fatal(err)
	}
	defer s.Fini()
	k := keys{read: &tty.reading}
	next := func() board.Symbol {
		for {
			if ev, ok := s.PollEvent().(*tcell.EventKey); ok {
				got, _ := k.key(ev)
				return got.Symbol
			}
		}
	}
	for _, c := range []struct {
		sent string
		want board.Symbol
	}{
		{"\x1b", board.Escape}, {"O", "O"}, {"x", "x"}, {"\x1b", board.Escape}, {"[", "["}, {"A", "A"},
		{"\x1b[A", board.ArrowUp}, {"\x1b", board.Escape}, {"\x1b[A", board.ArrowUp}, {"\x1bd", "Alt+d"},
		{"\x1bN", "Alt+N"}, {"\x1b^", "Alt+^"}, {"\x1b[", "Alt+["}, {"\x1bO", "Alt+O"}, {"\x1b\\", `Alt+\`}, {"\x1bP", "Alt+P"}, {"x", "x"},
	} {
		l.send(t, c.sent)
		if got := next(); got != c.want {
			t.Fatalf("%q is %s, want %s", c.sent, got, c.want)
		}
	}
}
