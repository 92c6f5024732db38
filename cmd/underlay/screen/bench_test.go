package screen

import (
	"io"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/gdamore/tcell/v2/terminfo"
	_ "github.com/gdamore/tcell/v2/terminfo/x/xterm" // the terminal that is written for

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
	"underlay/drills/board"
)

// void is a terminal of some size that shows nothing and sends nothing.
type void struct {
	w, h int
	gone chan struct{}
	sent int
}

func (v *void) Start() error                { return nil }
func (v *void) Stop() error                 { return nil }
func (v *void) Drain() error                { close(v.gone); return nil }
func (v *void) NotifyResize(func())         {}
func (v *void) Close() error                { return nil }
func (v *void) Read([]byte) (int, error)    { <-v.gone; return 0, io.EOF }
func (v *void) Write(b []byte) (int, error) { v.sent += len(b); return len(b), nil }
func (v *void) WindowSize() (tcell.WindowSize, error) {
	return tcell.WindowSize{Width: v.w, Height: v.h}, nil
}

func voidScreen(b *testing.B, w, h int) (tcell.Screen, *void) {
	b.Helper()
	ti, err := terminfo.LookupTerminfo("xterm-256color")
	if err != nil {
		b.Fatal(err)
	}
	tty := &void{w: w, h: h, gone: make(chan struct{})}
	s, err := tcell.NewTerminfoScreenFromTtyTerminfo(tty, ti)
	if err != nil {
		b.Fatal(err)
	}
	if err := s.Init(); err != nil {
		b.Fatal(err)
	}
	b.Cleanup(s.Fini)
	return s, tty
}

// endless is a sitting that asks for one line again and again.
func endless(b *testing.B) (*session.Model, string) {
	p := trialPlanner(b)
	p.Tasks, p.Repeat = p.Tasks[:1], true
	set := settings()
	set.Minutes = 1 << 30
	m := session.New(p, session.Options{Session: "b", Settings: set, Now: sessiontest.Noon()})
	m.Update(session.Key{Symbol: board.Enter, At: sessiontest.Noon()})
	return m, "if err != nil && n > 0 {"
}

// One key through update and draw, without and with tcell sending it off to a
// terminal. The goal is under 0.1 ms of our own at 120×40.
func BenchmarkKey(b *testing.B) {
	b.Run("update and draw", func(b *testing.B) { benchmarkKey(b, false) })
	b.Run("with tcell's output", func(b *testing.B) { benchmarkKey(b, true) })
}

func benchmarkKey(b *testing.B, send bool) {
	screen, tty := voidScreen(b, 120, 40)
	p := newPainter(screen, newTheme(Options{Colours: "dark", Env: noEnv}, 256))
	m, line := endless(b)
	var symbols []board.Symbol
	for _, r := range line {
		symbols = append(symbols, board.SymbolOf(r))
	}
	at := sessiontest.Noon()
	p.paint(m.View())
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		at = at.Add(250 * time.Millisecond)
		for _, e := range m.Update(session.Key{Symbol: symbols[i%len(symbols)], At: at}) {
			if _, ok := e.(session.Record); ok {
				m.Update(session.Saved{At: at})
			}
		}
		if send {
			p.paint(m.View())
			continue
		}
		p.sheet.clear()
		draw(&p.sheet, m.View(), false, &p.places)
	}
	b.ReportMetric(float64(tty.sent)/float64(b.N), "B/key")
}

// What tcell alone takes to show one changed cell.
func BenchmarkOneCell(b *testing.B) {
	screen, _ := voidScreen(b, 120, 40)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		screen.SetContent(i%120, i/120%40, rune('a'+i%26), nil, tcell.StyleDefault)
		screen.Show()
	}
}
