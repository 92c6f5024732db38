package screen

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// memory is a Host that keeps what it is given; it may fail or break first.
type memory struct {
	mu     sync.Mutex
	drills []journal.Drill
	fail   error
	panics bool
	set    []session.Settings
}

func (h *memory) Record(r session.Record) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.panics {
		panic("the disk is on fire")
	}
	if h.fail == nil {
		h.drills = append(h.drills, r.Drill)
	}
	return h.fail
}

func (h *memory) Report(int) session.Reported {
	return session.Reported{Lines: []string{"Marks layer: 22 of 30 strokes steady."}}
}

func (h *memory) Configure(c session.Configure) session.Configured {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.set = append(h.set, c.Settings)
	return session.Configured{Settings: c.Settings}
}

// recorder is a simulated screen that keeps a copy of what is shown, since
// GetContents returns the live buffer.
type recorder struct {
	tcell.SimulationScreen
	mu     sync.Mutex
	text   string
	shows  int
	closed bool
}

func newRecorder() *recorder { return &recorder{SimulationScreen: tcell.NewSimulationScreen("UTF-8")} }

func (r *recorder) keep() {
	cells, w, h := r.GetContents()
	var b strings.Builder
	for y := range h {
		for x := range w {
			b.WriteString(string(cells[y*w+x].Runes))
		}
		b.WriteByte('\n')
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.text = b.String()
	r.shows++
}

func (r *recorder) Show() { r.SimulationScreen.Show(); r.keep() }
func (r *recorder) Sync() { r.SimulationScreen.Sync(); r.keep() }
func (r *recorder) Fini() { r.SimulationScreen.Fini(); r.mu.Lock(); r.closed = true; r.mu.Unlock() }

func (r *recorder) shown() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.text
}

// count returns how often something was shown.
func (r *recorder) count() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.shows
}

// bench is a loop under test, in a bubble of its own time.
type bench struct {
	*testing.T
	screen  *recorder
	host    *memory
	signals chan os.Signal
	done    chan error
}

// inBubble runs a loop on a simulated screen, in virtual time.
func inBubble(t *testing.T, try func(b *bench)) {
	synctest.Test(t, func(t *testing.T) {
		b := &bench{T: t, screen: newRecorder(), host: &memory{}, signals: make(chan os.Signal, 1), done: make(chan error, 1)}
		m := session.New(trialPlanner(t), session.Options{Session: "s1", Settings: settings(), Reports: true, Now: time.Now()})
		go func() {
			defer func() {
				if r := recover(); r != nil {
					b.done <- errors.New("panic: " + r.(string))
				}
			}()
			b.done <- Run(m, b.host, Options{Colours: "none", Env: func(string) string { return "" }, Signals: b.signals, Screen: b.screen})
		}()
		defer func() { // also where the test has failed
			b.signals <- syscall.SIGTERM
			synctest.Wait()
		}()
		synctest.Wait()
		try(b)
	})
}

// keys injects keys, a quarter of a second after each other.
func (b *bench) keys(text string) {
	for _, r := range text {
		time.Sleep(250 * time.Millisecond)
		switch r {
		case '\n':
			b.screen.InjectKey(tcell.KeyEnter, 0, tcell.ModNone)
		case '\x1b':
			b.screen.InjectKey(tcell.KeyEscape, 0, tcell.ModNone)
		case '\x03':
			b.screen.InjectKey(tcell.KeyCtrlC, 0, tcell.ModCtrl)
		default:
			b.screen.InjectKey(tcell.KeyRune, r, tcell.ModNone)
		}
		synctest.Wait()
	}
}

func (b *bench) resize(w, h int) {
	b.screen.SetSize(w, h)
	b.screen.PostEvent(tcell.NewEventResize(w, h))
	synctest.Wait()
}

func (b *bench) see(want string) {
	b.Helper()
	synctest.Wait()
	if got := b.screen.shown(); !strings.Contains(got, want) {
		b.Fatalf("%q is not on the screen:\n%s", want, got)
	}
}

func (b *bench) end() error {
	b.Helper()
	synctest.Wait()
	select {
	case err := <-b.done:
		if !b.screen.closed {
			b.Error("the terminal was not given back")
		}
		return err
	default:
		b.Fatalf("the loop goes on:\n%s", b.screen.shown())
		return nil
	}
}

func TestLoopPractisesAndLeaves(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.see("8 minutes today")
		b.keys("\nif err != nil && n > 0 {")
		b.see("shown first")
		b.keys("\x03")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
		if len(b.host.drills) != 1 || len(b.host.drills[0].Keys) != 24 {
			t.Fatalf("recorded %+v", b.host.drills)
		}
		for i, k := range b.host.drills[0].Keys {
			if k.MS != 250 || k.Wrong() {
				t.Errorf("key %d: %+v, want 250 ms and right", i, k)
			}
		}
	})
}

func TestLoopIsIdleUntilTimeMatters(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.keys("\n")
		drawn := b.screen.count()
		time.Sleep(890 * time.Millisecond)
		synctest.Wait()
		if b.screen.count() != drawn {
			t.Errorf("drawn %d times while nothing happened", b.screen.count()-drawn)
		}
		time.Sleep(20 * time.Millisecond)
		b.see("right middle finger, top row") // the hesitation
		time.Sleep(31 * time.Second)
		b.see("No key for a while")
		drawn = b.screen.count()
		time.Sleep(20 * time.Hour)
		synctest.Wait()
		if b.screen.count() != drawn {
			t.Errorf("drawn %d times in a pause", b.screen.count()-drawn)
		}
		b.keys("\n")
		b.see("done")
		b.see("long break")
		b.keys("q")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
	})
}

func TestLoopEndsOnSignals(t *testing.T) {
	for _, sig := range []os.Signal{syscall.SIGTERM, syscall.SIGHUP} {
		inBubble(t, func(b *bench) {
			b.keys("\nif")
			b.signals <- sig
			if err := b.end(); err != nil {
				t.Fatal(err)
			}
			if len(b.host.drills) != 1 || len(b.host.drills[0].Keys) != 2 {
				t.Errorf("%v: recorded %+v, want the two strokes", sig, b.host.drills)
			}
		})
	}
}

func TestLoopTellsFailedSavesAtOnce(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.host.fail = errors.New("no space left on device")
		b.keys("\nif err != nil && n > 0 {")
		b.see("not saved: no space left on device")
		b.host.mu.Lock()
		b.host.fail = nil
		b.host.mu.Unlock()
		time.Sleep(4 * time.Second)
		b.see("All is saved now.")
		b.keys("\x03")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
		if len(b.host.drills) != 1 {
			t.Errorf("%d drills are on the journal, want 1", len(b.host.drills))
		}
	})
}

func TestLoopGivesTheTerminalBackOnAPanic(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.host.panics = true
		b.keys("\nif err != nil && n > 0 {")
		if err := b.end(); err == nil || !strings.Contains(err.Error(), "the disk is on fire") {
			t.Errorf("ended with %v", err)
		}
	})
}

func TestLoopSwallowsPastes(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.keys("\ni")
		b.screen.PostEvent(tcell.NewEventPaste(true))
		for range 1000 {
			synctest.Wait() // the simulated terminal drops what its queue has no room for
			b.screen.InjectKey(tcell.KeyRune, 'f', tcell.ModNone)
		}
		synctest.Wait()
		b.screen.PostEvent(tcell.NewEventPaste(false))
		b.see("That was a paste")
		time.Sleep(time.Second)
		b.keys("\nf")
		b.keys("\x03")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
		if k := b.host.drills[0].Keys; len(k) != 2 || k[1].Wrong() || !k[1].Flags.Has(journal.Paused) {
			t.Errorf("recorded %+v", k)
		}
	})
}

func TestLoopWaitsForRoom(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.keys("\ni")
		b.resize(59, 20)
		b.see("The window is too small.")
		b.keys("fq") // nothing of it is taken
		b.resize(80, 24)
		b.see("The clock stands still")
		b.resize(10, 3)
		b.see("too small")
		b.resize(80, 24)
		time.Sleep(time.Second)
		b.keys("\n")
		b.see("if␣err")
		b.keys("\x03")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
	})
}

func TestLoopChangesColoursAtOnce(t *testing.T) {
	inBubble(t, func(b *bench) {
		b.keys("sjjjl") // none to auto comes last of four
		b.see("settings")
		b.keys("\x1bq")
		if err := b.end(); err != nil {
			t.Fatal(err)
		}
		if len(b.host.set) != 1 || b.host.set[0].Colours != "dark" {
			t.Errorf("settings: %+v", b.host.set)
		}
	})
}

// A translated key has the symbol that boards use.
func TestKeys(t *testing.T) {
	for _, c := range []struct {
		key  tcell.Key
		r    rune
		mod  tcell.ModMask
		want board.Symbol
	}{
		{tcell.KeyRune, 'a', tcell.ModNone, "a"},
		{tcell.KeyRune, 'A', tcell.ModShift, "A"},
		{tcell.KeyRune, ' ', tcell.ModNone, board.Space},
		{tcell.KeyRune, 'ä', tcell.ModNone, "ä"},
		{tcell.KeyRune, 'x', tcell.ModAlt, "Alt+x"},
		{tcell.KeyRune, '[', tcell.ModCtrl, "Control+["},
		{tcell.KeyEnter, 0, tcell.ModNone, board.Enter},
		{tcell.KeyTab, 0, tcell.ModNone, board.Tab},
		{tcell.KeyBacktab, 0, tcell.ModNone, "Shift+Tab"},
		{tcell.KeyBackspace2, 0, tcell.ModNone, board.Backspace},
		{tcell.KeyEscape, 0, tcell.ModNone, board.Escape},
		{tcell.KeyCtrlW, 0, tcell.ModCtrl, "Control+w"},
		{tcell.KeyCtrlSpace, 0, tcell.ModCtrl, "Control+Space"},
		{tcell.KeyCtrlRightSq, 0, tcell.ModCtrl, "Control+]"},
		{tcell.KeyCtrlBackslash, 0, tcell.ModCtrl, `Control+\`},
		{tcell.KeyUp, 0, tcell.ModNone, board.ArrowUp},
		{tcell.KeyLeft, 0, tcell.ModShift, "Shift+ArrowLeft"},
		{tcell.KeyF5, 0, tcell.ModNone, "F5"},
		{tcell.KeyF12, 0, tcell.ModAlt, "Alt+F12"},
		{tcell.KeyPgDn, 0, tcell.ModCtrl, "Control+PageDown"},
	} {
		if got := symbol(tcell.NewEventKey(c.key, c.r, c.mod)); got != c.want {
			t.Errorf("key %d rune %q mod %d: %q, want %q", c.key, c.r, c.mod, got, c.want)
		}
	}
}

// An Escape that was held back gets the time at which its byte was read; keys
// that came at once have no time of their own.
func TestTimesOfKeys(t *testing.T) {
	escape, letter := tcell.NewEventKey(tcell.KeyEscape, 0, tcell.ModNone), tcell.NewEventKey(tcell.KeyRune, 'x', tcell.ModNone)
	for _, c := range []struct {
		ev    *tcell.EventKey
		ago   time.Duration // since the bytes were read
		bytes string
		off   time.Duration // what is taken off the time
		vague bool
	}{
		{escape, 62 * time.Millisecond, "\x1b", 62 * time.Millisecond, false},
		{escape, time.Millisecond, "\x1b", time.Millisecond, false},
		{escape, 5 * time.Second, "\x1b", 0, false}, // another one's
		{letter, 62 * time.Millisecond, "x", 0, false},
		{letter, time.Millisecond, "xy", 0, true},
		{escape, 25 * time.Millisecond, "x\x1b", 25 * time.Millisecond, true},
	} {
		var r reading
		r.note(c.ev.When().Add(-c.ago), []byte(c.bytes))
		k, ok := keys{read: &r}.key(c.ev)
		if off := c.ev.When().Sub(k.At); !ok || k.Vague != c.vague || off != c.off {
			t.Errorf("%q read %v before: %v taken off, vague %v; want %v, %v", c.bytes, c.ago, off, k.Vague, c.off, c.vague)
		}
	}
	if k, _ := (keys{}).key(escape); !k.Vague {
		t.Error("where the reading is not known, an Escape's time is not called vague")
	}
	if k, _ := (keys{}).key(letter); k.Vague {
		t.Error("a letter's time is called vague")
	}
}

// The sequences are those of ECMA-48 and of xterm's extensions to it.
func TestKeysIn(t *testing.T) {
	for bytes, want := range map[string]int{
		"": 0, "x": 1, "xy": 2, "ä": 1, "\x1b": 1, "\x1b[A": 1, "\x1bx": 1, "\x1b[1;5D": 1, "\x1b[200~": 1, "x\x1b[A": 2, "\x1b[A\x1b[B": 2,
		"\xff\xfe": 2,
	} {
		if got := keysIn([]byte(bytes)); got != want {
			t.Errorf("%q is %d keys, want %d", bytes, got, want)
		}
	}
}

// A paste that is not told ends with a silence, however short its last pieces are.
func TestPasteLastsUntilSilence(t *testing.T) {
	var r reading
	at := time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)
	for i, c := range []struct {
		after time.Duration // since the bytes before
		keys  int
		want  bool
	}{
		{0, 1, false},
		{150 * time.Millisecond, pasteFrom - 1, false},
		{5 * time.Millisecond, pasteFrom, true},
		{5 * time.Millisecond, 4096, true},
		{90 * time.Millisecond, 2, true},
		{99 * time.Millisecond, 1, true},
		{pasteGap, 1, false},
		{5 * time.Millisecond, 2, false},
	} {
		at = at.Add(c.after)
		r.note(at, bytes.Repeat([]byte("x"), c.keys))
		if n, got := r.pasted(); got != c.want || got && n != c.keys {
			t.Errorf("piece %d, of %d keys after %v: a paste of %d, %v; want %v", i, c.keys, c.after, n, got, c.want)
		}
	}
}
