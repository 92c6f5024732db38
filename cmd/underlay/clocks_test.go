package main

import (
	"os"
	"time"

	"github.com/gdamore/tcell/v2"
)

// breaking is the real environment with a clock that panics once the file
// $PANIC_AT is there.
func breaking() *Env {
	e := system()
	e.Now = func() time.Time {
		if _, err := os.Stat(os.Getenv("PANIC_AT")); err == nil {
			panic("the clock broke on purpose")
		}
		return time.Now()
	}
	return e
}

// stepped is the real environment with a clock that is put forward: it shows
// the modification time of the file $CLOCK and the whole seconds since the
// start. A long sitting is short with it, no screen needs to keep up with a fast
// clock, and all sittings begin at one moment, which settles what is drilled.
func stepped() *Env {
	e := system()
	start := time.Now()
	e.Now = func() time.Time {
		clock, err := os.Stat(os.Getenv("CLOCK"))
		if err != nil {
			panic(err)
		}
		return clock.ModTime().Add(time.Since(start).Truncate(time.Second))
	}
	return e
}

// bareEcho shows each key that is pressed, with tcell and nothing else, until
// Control+c. Round trips are measured against it.
func bareEcho() int {
	s, err := tcell.NewScreen()
	if err != nil {
		return 1
	}
	if err := s.Init(); err != nil {
		return 1
	}
	defer s.Fini()
	for x := 0; ; {
		s.Show()
		ev, ok := s.PollEvent().(*tcell.EventKey)
		if !ok {
			continue
		}
		if ev.Key() == tcell.KeyCtrlC {
			return 0
		}
		w, h := s.Size()
		s.SetContent(x%w, x/w%h, ev.Rune(), nil, tcell.StyleDefault)
		x++
	}
}

// barePaint paints one screen with tcell and waits for Control+c. The first
// picture is measured against it.
func barePaint() int {
	s, err := tcell.NewScreen()
	if err != nil {
		return 1
	}
	if err := s.Init(); err != nil {
		return 1
	}
	defer s.Fini()
	w, h := s.Size()
	for i := range w * h {
		s.SetContent(i%w, i/w, rune("painted "[i%8]), nil, tcell.StyleDefault)
	}
	s.Show()
	for {
		if ev, ok := s.PollEvent().(*tcell.EventKey); ok && ev.Key() == tcell.KeyCtrlC {
			return 0
		}
	}
}
