//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/gdamore/tcell/v3/vt"
	"golang.org/x/term"
)

// emulator is what tests need of a terminal emulator.
type emulator interface {
	// Show takes what a program writes.
	Show([]byte)
	// Line returns the text of a line, blanks at its end cut off.
	Line(y int) string
	// Cursor returns where the cursor is.
	Cursor() (x, y int)
	Resize(w, h int)
	Size() (w, h int)
}

// vtEmulator is the one of tcell's package vt, whose API is not settled yet.
type vtEmulator struct{ term vt.MockTerm }

func newEmulator(t testing.TB, w, h int) emulator {
	m := vt.NewMockTerm(vt.MockOptSize{X: vt.Col(w), Y: vt.Row(h)})
	if err := m.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { m.Stop() })
	return &vtEmulator{m}
}

func (e *vtEmulator) Show(b []byte) { _, _ = e.term.Write(b) }
func (e *vtEmulator) Cursor() (x, y int) {
	p := e.term.Pos()
	return int(p.X), int(p.Y)
}
func (e *vtEmulator) Resize(w, h int) { e.term.SetSize(vt.Coord{X: vt.Col(w), Y: vt.Row(h)}) }
func (e *vtEmulator) Size() (w, h int) {
	s := e.term.Backend().GetSize()
	return int(s.X), int(s.Y)
}

func (e *vtEmulator) Line(y int) string {
	w, _ := e.Size()
	var b strings.Builder
	for x := 0; x < w; x++ {
		c := e.term.GetCell(vt.Coord{X: vt.Col(x), Y: vt.Row(y)})
		if c.C == "" {
			c.C = " "
		}
		b.WriteString(c.C)
		x += max(0, c.W-1)
	}
	return strings.TrimRight(b.String(), " ")
}

// console is a program that runs in a pseudo-terminal with an emulator.
type console struct {
	testing.TB
	cmd      *exec.Cmd
	ptmx     *os.File
	tty      *os.File // kept open, to look at its modes
	before   *term.State
	mu       sync.Mutex
	changed  chan struct{} // closed and renewed whenever something was shown
	emulator emulator
	raw      []byte    // all that was written
	sent     time.Time // when the key under measurement was sent; zero: none is
	answer   time.Duration
	exited   chan error
}

// open starts one of the test binary's commands (TestMain) in a terminal.
func open(t testing.TB, w, h int, home string, env []string, name string, args ...string) *console {
	t.Helper()
	program := filepath.Join(t.TempDir(), name)
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(self, program); err != nil {
		t.Fatal(err)
	}
	ptmx, tty, err := pty.Open()
	if err != nil {
		t.Skipf("no pseudo-terminal here: %v", err)
	}
	c := &console{TB: t, ptmx: ptmx, tty: tty, emulator: newEmulator(t, w, h), exited: make(chan error, 1), changed: make(chan struct{})}
	t.Cleanup(c.close)
	if err := pty.Setsize(ptmx, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)}); err != nil {
		t.Fatal(err)
	}
	if c.before, err = term.GetState(int(tty.Fd())); err != nil {
		t.Fatal(err)
	}
	c.cmd = exec.Command(program, args...)
	c.cmd.Env = append([]string{"HOME=" + home, "TERM=xterm-256color", "LANG=C.UTF-8", "PATH=" + os.Getenv("PATH")}, env...)
	c.cmd.Stdin, c.cmd.Stdout, c.cmd.Stderr = tty, tty, tty
	c.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go c.listen()
	go func() { c.exited <- c.cmd.Wait() }()
	return c
}

func (c *console) listen() {
	buf := make([]byte, 1<<16)
	for {
		n, err := c.ptmx.Read(buf)
		at := time.Now()
		c.mu.Lock()
		if !c.sent.IsZero() && n > 0 {
			c.answer, c.sent = at.Sub(c.sent), time.Time{}
		}
		c.raw = append(c.raw, buf[:n]...)
		c.emulator.Show(buf[:n])
		close(c.changed)
		c.changed = make(chan struct{})
		c.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (c *console) close() {
	if c.cmd != nil && c.cmd.ProcessState == nil && c.cmd.Process != nil {
		c.cmd.Process.Kill()
	}
	c.tty.Close()
	c.ptmx.Close()
}

// patience is how long a test waits for something to be shown before it fails.
// It costs nothing where all is well, and a busy machine may need much of it.
const patience = time.Minute

// until waits until what is shown is as wanted.
func (c *console) until(what string, ok func() bool) {
	c.Helper()
	limit := time.After(patience)
	for {
		c.mu.Lock()
		good, next := ok(), c.changed
		c.mu.Unlock()
		if good {
			return
		}
		select {
		case <-next:
		case <-limit:
			c.Fatalf("waited in vain for %s; the screen is\n%s", what, c.screen())
		}
	}
}

// see waits for a text on the screen.
func (c *console) see(text string) {
	c.Helper()
	c.until(fmt.Sprintf("%q", text), func() bool { return strings.Contains(c.text(), text) })
}

// begin answers a first start's question as it is, and waits for Today.
func (c *console) begin(text string) {
	c.Helper()
	c.see("which board are you learning?")
	c.send("\r")
	c.see(text)
}

// text returns the whole screen. The lock is held.
func (c *console) text() string {
	_, h := c.emulator.Size()
	var b strings.Builder
	for y := range h {
		b.WriteString(c.emulator.Line(y) + "\n")
	}
	return b.String()
}

func (c *console) screen() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.text()
}

func (c *console) send(bytes string) {
	c.Helper()
	if _, err := c.ptmx.WriteString(bytes); err != nil {
		c.Fatal(err)
	}
}

// roundTrip sends bytes and returns the time until the program writes.
func (c *console) roundTrip(bytes string) time.Duration {
	c.Helper()
	c.mu.Lock()
	c.sent = time.Now()
	c.mu.Unlock()
	c.send(bytes)
	c.until("an answer", func() bool { return c.sent.IsZero() })
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.answer
}

// resize changes the window's size and waits until all of it is drawn anew.
func (c *console) resize(w, h int) {
	c.Helper()
	c.mu.Lock()
	from := len(c.raw)
	c.emulator.Resize(w, h)
	c.mu.Unlock()
	if err := pty.Setsize(c.ptmx, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)}); err != nil {
		c.Fatal(err)
	}
	c.until("the window to be cleared", func() bool { return strings.Contains(string(c.raw[from:]), "\x1b[2J") })
}

// end waits for the program's end and tells how it ended.
func (c *console) end() error {
	c.Helper()
	select {
	case err := <-c.exited:
		return err
	case <-time.After(patience):
		c.Fatalf("the program goes on; the screen is\n%s", c.screen())
		return nil
	}
}

// restored fails unless the terminal is as it was before the program: its line
// modes, and every private mode that was set.
func (c *console) restored() {
	c.Helper()
	now, err := term.GetState(int(c.tty.Fd()))
	if err != nil {
		c.Fatal(err)
	}
	if *now != *c.before {
		c.Errorf("the terminal's line modes are others than before")
	}
	c.until("all private modes to be as before", func() bool { return len(modesLeft(string(c.raw))) == 0 })
}

// modesLeft returns the DEC private modes that were changed and not changed
// back: on, except for the cursor (25), which starts on; automatic margins (7)
// as well.
func modesLeft(raw string) []string {
	now := map[string]string{}
	for _, m := range regexp.MustCompile(`\x1b\[\?(\d+)([hl])`).FindAllStringSubmatch(raw, -1) {
		now[m[1]] = m[2]
	}
	var left []string
	for mode, state := range now {
		startsOn := mode == "25" || mode == "7"
		if (state == "h") != startsOn {
			left = append(left, mode+state)
		}
	}
	return left
}
