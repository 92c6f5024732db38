//go:build unix

package main

import (
	"errors"
	"os/exec"
	"strings"
	"testing"
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
	home := t.TempDir()
	c := open(t, 80, 24, home, nil, "underlay")
	c.begin("8 minutes today")
	c.send("\r")
	c.see(" pause   ")
	c.send("\x1b[200~")
	for range 1 << 10 {
		c.send(strings.Repeat("paste me", 128))
	}
	c.send("\x1b[201~")
	c.see("That was a paste")
	c.send("\x03")
	if err := c.end(); err != nil {
		t.Error(err)
	}
	c.restored()
	if got := journalOf(t, home); len(got) != 0 {
		t.Errorf("%d drills on the journal", len(got))
	}
}
