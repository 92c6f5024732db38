package screen

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"underlay/cmd/underlay/capture"
	"underlay/drills/board"
)

// shelf is a CaptureHost in memory.
type shelf struct {
	state []byte
	files map[string]string
	fail  error
}

func (s *shelf) Keep(state []byte) error {
	s.state = state
	return s.fail
}

func (s *shelf) Save(f capture.Save) error {
	if _, there := s.files[f.Name]; there && !f.Over {
		return fs.ErrExist
	}
	s.files[f.Name] = string(f.Source)
	return nil
}

// describing runs a capture on a simulated screen, in virtual time.
func describing(t *testing.T, h *shelf, try func(b *bench)) {
	synctest.Test(t, func(t *testing.T) {
		b := &bench{T: t, screen: newRecorder(), signals: make(chan os.Signal, 1), done: make(chan error, 1)}
		c := capture.New()
		if h.state != nil {
			var err error
			if c, err = capture.Resume(h.state); err != nil {
				t.Fatal(err)
			}
		}
		go func() {
			b.done <- RunCapture(c, h, Options{Colours: "none", Env: func(string) string { return "" }, Signals: b.signals, Screen: b.screen})
		}()
		defer func() {
			b.signals <- os.Interrupt
			synctest.Wait()
		}()
		synctest.Wait()
		try(b)
	})
}

func (b *bench) pause(d time.Duration) {
	time.Sleep(d)
	synctest.Wait()
}

func TestCaptureOnTheScreen(t *testing.T) {
	h := &shelf{files: map[string]string{"tiny": "mine"}}
	describing(t, h, func(b *bench) {
		b.see("> ansi-61")
		b.keys("split 2x2+1\ntiny\n\n")
		b.see("press the lit key")
		b.see("left middle finger, home row")
		b.see("0 of 10 keys")
		b.keys("qwuiasjk ")
		b.see("9 of 10 keys")
		b.pause(capture.Moment)
		b.see("nothing came")
		b.pause(capture.Surprise)
		b.keys("Shif\n")
		b.see("did you mean Shift?")
		b.keys("Shift\n")
		b.see("does a key do something else when it is held?")
		b.keys("\n")
		b.see("this is the board")
		b.see("Space")
		b.keys("\n")
		b.see("there is a board named tiny already")
		b.keys("other\n")
		b.see("other is saved")
		b.keys("\n")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
	})
	if h.files["tiny"] != "mine" || h.state != nil {
		t.Errorf("%q, state %q", h.files["tiny"], h.state)
	}
	got, found := board.Read("other.toml", []byte(h.files["other"]))
	if got == nil || !strings.Contains(h.files["other"], "Shift") {
		t.Errorf("%v\n%s", found.Err(), h.files["other"])
	}
}

func TestCaptureGoesOnAfterAnInterrupt(t *testing.T) {
	h := &shelf{files: map[string]string{}}
	describing(t, h, func(b *bench) {
		b.keys("split 2x2+1\ntiny\n\nqw")
		b.signals <- os.Interrupt
		if err := b.end(); !errors.Is(err, ErrStopped) {
			t.Fatal(err)
		}
	})
	describing(t, h, func(b *bench) {
		b.see("2 of 10 keys")
		b.keys("u")
		b.see("3 of 10 keys")
	})
}

func TestCaptureTellsWhatCouldNotBeKept(t *testing.T) {
	h := &shelf{files: map[string]string{}, fail: errors.New("disk full")}
	describing(t, h, func(b *bench) {
		b.keys("split 2x2+1\nq\x03")
		if err := b.end(); err == nil || !strings.Contains(err.Error(), "disk full") {
			t.Errorf("%v", err)
		}
	})
}

// Every step is drawn in every size of window, without harm.
func TestCaptureInAnyWindow(t *testing.T) {
	for _, size := range [][2]int{{0, 0}, {1, 1}, {30, 10}, {60, 20}, {80, 24}, {71, 40}, {200, 60}} {
		for _, name := range board.Embedded() {
			c := capture.New()
			at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
			var s sheet
			step := func(keys string) {
				for _, r := range keys {
					at = at.Add(100 * time.Millisecond)
					c.Update(capture.Key{Symbol: board.SymbolOf(r), At: at})
					s.resize(size[0], size[1])
					s.clear()
					drawCapture(&s, c.View(), false)
				}
			}
			c.Update(capture.Tick{At: at})
			step(name + "\n\n\nq")
			at = at.Add(capture.Moment)
			c.Update(capture.Tick{At: at})
			step("rest\n\n\n\n")
		}
	}
}
