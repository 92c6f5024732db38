//go:build unix

package main

import (
	"errors"
	"os/exec"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"golang.org/x/sys/unix"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// A terminal of which nothing is known, and one that cannot place a cursor, are
// told with a way out.
func TestTerminalsThatCannotServe(t *testing.T) {
	for _, name := range []string{"", "nosuch", "dumb"} {
		c := open(t, 80, 24, t.TempDir(), []string{"TERM=" + name}, "underlay")
		left, ok := errors.AsType[*exec.ExitError](c.end())
		if !ok || left.ExitCode() != failed {
			t.Errorf("TERM=%q: left with %v", name, left)
		}
		c.until("the advice", func() bool { return strings.Contains(string(c.raw), "--plain needs no terminal of any kind") })
		if text := c.screen(); !strings.Contains(text, "underlay: opening the terminal: ") || !strings.Contains(text, `TERM is "`+name+`"`) {
			t.Errorf("TERM=%q: told\n%s", name, text)
		}
		c.restored()
	}
}

// A window of ten by three waits until it is larger, and can be left.
func TestTinyWindow(t *testing.T) {
	c := open(t, 10, 3, t.TempDir(), nil, "underlay")
	c.see("too small")
	c.resize(80, 24)
	c.begin("8 minutes today")
	c.resize(10, 3)
	c.see("too small")
	c.send("\x03")
	if err := c.end(); err != nil {
		t.Error(err)
	}
	c.restored()
}

// A paste of a megabyte is no practice: the drill stops and waits.
func TestPasteOfAMegabyte(t *testing.T) {
	got := paste(t, func(c *console) {
		c.send("\x1b[200~")
		for range 1 << 10 {
			c.send(strings.Repeat("paste me", 128))
		}
		c.send("\x1b[201~")
	})
	if len(got) != 0 {
		t.Errorf("%d drills on the journal", len(got))
	}
}

// A terminal that does not say that it pastes sends all at once: that is no
// practice either, and no key of it has a time.
func TestPasteThatIsNotTold(t *testing.T) {
	got := paste(t, func(c *console) { c.send(strings.Repeat("paste me", 250)) })
	for _, d := range got {
		for _, k := range d.Keys {
			if k.MS > 0 {
				t.Errorf("%s counts %.1f ms", k.Symbol, k.MS)
			}
		}
	}
}

// paste sends a paste to a drill, which has to stop for it, leaves the program
// and returns what is on the journal.
func paste(t *testing.T, send func(*console)) []journal.Drill {
	t.Helper()
	home := t.TempDir()
	c := open(t, 80, 24, home, nil, "underlay")
	c.begin("8 minutes today")
	c.send("\r")
	c.see(" pause   ")
	send(c)
	c.see("That was a paste")
	c.taken()
	c.send("\x03")
	if err := c.end(); err != nil {
		t.Error(err)
	}
	c.restored()
	return journalOf(t, home)
}

// taken waits until the program has read all that was sent, so that what is sent
// next does not come in one piece with it.
func (c *console) taken() {
	c.Helper()
	for end := time.Now().Add(patience); ; runtime.Gosched() {
		left := []unix.PollFd{{Fd: int32(c.tty.Fd()), Events: unix.POLLIN}}
		switch n, err := unix.Poll(left, 0); {
		case err != nil && err != unix.EINTR:
			c.Fatal(err)
		case err == nil && n == 0:
			return
		case time.Now().After(end):
			c.Fatal("the program does not read what was sent")
		}
	}
}

// Escape and a key that come as one, as from quick fingers, are two answers
// where Escape is asked for.
func TestEscapeAndAKeyAtOnce(t *testing.T) {
	home := t.TempDir()
	y := &typist{console: open(t, 80, 24, home, nil, "underlay", "today", "--kind", "motion")}
	y.begin("8 minutes today")
	y.send("\r")
	y.see(" pause")
	for tries := 0; ; tries++ {
		if tries > 400 {
			t.Fatal("no motion begins with Escape and goes on")
		}
		next := y.afterEscape()
		if next == "" {
			y.stroke()
			continue
		}
		y.made = append(y.made, pressed{asked: board.Escape}, pressed{asked: next})
		y.mu.Lock()
		before := y.status()
		y.mu.Unlock()
		y.send("\x1b" + bytesOf(t, next))
		y.until("the answer to both", func() bool { return y.whole() && y.status() != before })
		break
	}
	y.leave()
	if err := y.end(); err != nil {
		t.Fatal(err)
	}
	sameStrokes(t, journalOf(t, home), y.made)
}

// afterEscape returns the character that is asked for after Escape, if Escape
// is asked for now, a character follows and the drill goes on after it.
func (y *typist) afterEscape() board.Symbol {
	y.Helper()
	if y.ready() != board.Escape {
		return ""
	}
	y.mu.Lock()
	defer y.mu.Unlock()
	cx, cy := y.emulator.Cursor()
	_, rest, _ := strings.Cut(string([]rune(y.emulator.Line(cy - 1))[cx:]), "›")
	rest = strings.TrimSpace(rest) // a gap for the eye
	r, size := utf8.DecodeRuneInString(rest)
	if len(rest) == size {
		return "" // nothing comes after it
	}
	if s := board.SymbolOf(r); s.IsCharacter() && !strings.ContainsRune("‹␣⇥⏎", r) {
		return s
	}
	return ""
}
