//go:build unix

package main

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// pressed is a stroke as the test made it: what was asked for, and the wrong
// symbol that came instead, if one did.
type pressed struct{ asked, got board.Symbol }

// typist reads a drill off the screen and types it.
type typist struct {
	*console
	made  []pressed // first attempts
	clock string    // the file whose time the program's clock shows, or ""
}

// pace is how far a typist's clock is put forward with each key.
const pace = 300 * time.Millisecond

// send puts the clock forward and sends what a key sends.
func (y *typist) send(bytes string) {
	y.Helper()
	if y.clock != "" {
		at, err := os.Stat(y.clock)
		if err != nil {
			y.Fatal(err)
		}
		if err := os.Chtimes(y.clock, time.Time{}, at.ModTime().Add(pace)); err != nil {
			y.Fatal(err)
		}
	}
	y.console.send(bytes)
}

// asked reads what the drill asks for: the cell of the prompt above the
// cursor. The lock is held.
func (y *typist) asked() board.Symbol {
	cx, cy := y.emulator.Cursor()
	if cy < 1 {
		return ""
	}
	cells := []rune(y.emulator.Line(cy - 1))
	if cx >= len(cells) {
		return ""
	}
	switch r := cells[cx]; r {
	case '␣':
		return board.Space
	case '⏎':
		return board.Enter
	case '⇥':
		return board.Tab
	case '‹':
		name, _, _ := strings.Cut(string(cells[cx+1:]), "›")
		return y.named(name)
	default:
		return board.Symbol(r)
	}
}

// named returns the key or chord that a prompt shows by a short name.
func (y *typist) named(name string) board.Symbol {
	for _, b := range board.Embedded() {
		if b, err := board.Load(b); err == nil {
			for _, s := range b.Symbols() {
				if drills.KeyName(s) == name && name != string(s) || string(s) == name {
					return s
				}
			}
		}
	}
	return board.Symbol(name)
}

// bytes are what a terminal sends for a symbol, as ECMA-48 and xterm have it.
func bytesOf(t testing.TB, s board.Symbol) string {
	t.Helper()
	if r, ok := s.Rune(); ok && s != board.Enter {
		return string(r)
	}
	mods, key, ok := s.Chord()
	if ok && slices.Equal(mods, []board.Symbol{board.Control}) && len(key) == 1 {
		return string(rune(key[0] & 0x1f))
	}
	if ok && slices.Equal(mods, []board.Symbol{board.Alt}) && len(key) == 1 {
		return "\x1b" + string(key)
	}
	named := map[board.Symbol]string{
		board.Enter: "\r", board.Escape: "\x1b", board.Backspace: "\x7f", board.Delete: "\x1b[3~", board.Insert: "\x1b[2~",
		board.Home: "\x1b[H", board.End: "\x1b[F", board.PageUp: "\x1b[5~", board.PageDown: "\x1b[6~",
		board.ArrowUp: "\x1b[A", board.ArrowDown: "\x1b[B", board.ArrowRight: "\x1b[C", board.ArrowLeft: "\x1b[D", "Shift+Tab": "\x1b[Z",
		"F1": "\x1bOP", "F2": "\x1bOQ", "F3": "\x1bOR", "F4": "\x1bOS", "F5": "\x1b[15~", "F6": "\x1b[17~", "F7": "\x1b[18~", "F8": "\x1b[19~",
		"F9": "\x1b[20~", "F10": "\x1b[21~", "F11": "\x1b[23~", "F12": "\x1b[24~",
	}
	if b, ok := named[s]; ok {
		return b
	}
	if answer := unseenAnswer(s); answer != "" {
		return bytesOf(t, answer)
	}
	t.Fatalf("no bytes are known for %s", s)
	return ""
}

// whole tells whether the frame is whole: the cursor, which goes there last,
// is on the caret of a drill, or another place tells its keys. The lock is held.
func (y *typist) whole() bool {
	cx, cy := y.emulator.Cursor()
	line := []rune(y.emulator.Line(cy))
	return cx < len(line) && line[cx] == '▁' || strings.Contains(y.text(), "Enter ")
}

// ready waits for something to type and returns what is asked for.
func (y *typist) ready() (s board.Symbol) {
	y.Helper()
	y.until("something to type", func() bool {
		s = y.asked()
		return y.whole() && s != "" && s != " "
	})
	return s
}

// unseenAnswer returns what answers for a key of split-38 that no program sees:
// what its position gives on the base layer.
func unseenAnswer(s board.Symbol) board.Symbol {
	b, err := board.Load("split-38")
	if err != nil {
		return ""
	}
	st, _ := b.Drilled(s)
	answer, _ := b.Gives(b.Layers()[0], st.Final().Position)
	return answer
}

// status is what tells one moment of a drill from the next: the cursor, the
// title and the prompt. The lock is held.
func (y *typist) status() string {
	cx, cy := y.emulator.Cursor()
	title, _, _ := strings.Cut(strings.TrimSpace(y.emulator.Line(0)), "   ") // without the time left
	return title + "\x00" + y.emulator.Line(2) + "\x00" + string(rune(cx)) + string(rune(cy))
}

func (y *typist) drilling() bool {
	y.mu.Lock()
	defer y.mu.Unlock()
	return strings.Contains(y.text(), " pause")
}

// stroke types the stroke that is asked for.
func (y *typist) stroke() {
	y.Helper()
	s := y.ready()
	y.made = append(y.made, pressed{asked: s})
	y.answer(s)
}

// slip types a wrong symbol and mends it: where the drill waits, by the right
// one; in probe and upkeep, where it stands as at work, by Backspace first.
func (y *typist) slip() {
	y.Helper()
	s := y.ready()
	got := board.Symbol("Q")
	if s == got {
		got = "W"
	}
	y.made = append(y.made, pressed{asked: s, got: got})
	y.send(string(got))
	told := regexp.MustCompile(` slip|that was|transposition|repeat`)
	y.until("the slip", func() bool { return told.MatchString(y.text()) })
	if title := strings.TrimSpace(y.screen()); strings.HasPrefix(title, "probe ") || strings.HasPrefix(title, "upkeep ") {
		y.made = append(y.made, pressed{asked: board.Backspace})
		y.press(board.Backspace)
	}
	y.answer(s)
}

// answer types what is asked for and waits until the drill has gone on.
func (y *typist) answer(s board.Symbol) {
	y.Helper()
	y.ready()
	y.press(s)
}

// press types a symbol and waits until the drill has taken it.
func (y *typist) press(s board.Symbol) {
	y.Helper()
	y.mu.Lock()
	before := y.status()
	y.mu.Unlock()
	y.send(bytesOf(y, s))
	y.until("the answer to "+string(s), func() bool { return y.whole() && y.status() != before })
}

// strokes types stroke after stroke until something is so.
func (y *typist) strokes(enough func() bool) {
	y.Helper()
	for n := 0; !enough(); n++ {
		if n > 400 {
			y.Fatalf("a drill without end:\n%s", y.screen())
		}
		y.stroke()
	}
}

// drillsSoFar reads the journal in a home directory, also while it is written.
func drillsSoFar(t testing.TB, home string) (*journal.History, []journal.Drill) {
	t.Helper()
	h, err := journal.Read(journal.NewDisk(filepath.Join(home, ".local", "share", "underlay", "journal")).FS())
	if err != nil {
		t.Fatal(err)
	}
	return h, slices.Collect(h.Drills(journal.Position{}))
}

// journalOf returns the drills in a home directory's journal, which has no fault.
func journalOf(t testing.TB, home string) []journal.Drill {
	t.Helper()
	h, drills := drillsSoFar(t, home)
	if p := h.Problems(); len(p) > 0 || h.Err() != nil {
		t.Fatalf("the journal has problems: %v %v", p, h.Err())
	}
	return drills
}

// saved counts the drills that are on the journal so far.
func saved(t testing.TB, home string) int {
	_, drills := drillsSoFar(t, home)
	return len(drills)
}

func sameStrokes(t testing.TB, drills []journal.Drill, made []pressed) {
	t.Helper()
	var got []pressed
	for _, d := range drills {
		for _, k := range d.Keys {
			got = append(got, pressed{board.Symbol(k.Symbol), board.Symbol(k.Got)})
		}
	}
	for i := range max(len(got), len(made)) {
		if i >= len(got) || i >= len(made) || got[i] != made[i] {
			from := max(0, i-3)
			t.Errorf("stroke %d differs: the journal has %d, %v…; made were %d, %v…", i,
				len(got), got[min(from, len(got)):min(i+3, len(got))], len(made), made[min(from, len(made)):min(i+3, len(made))])
			return
		}
	}
}

// The built binary, as a person meets it: start, practise with a slip, pause,
// resize, leave, come back.
func TestPractiseInATerminal(t *testing.T) {
	home := t.TempDir()
	y := &typist{console: open(t, 80, 24, home, nil, "underlay")}
	y.begin("8 minutes today")
	y.see("clinician") // the cautions of the first start
	y.send("\r")
	y.see(" pause")
	y.stroke()
	y.slip()
	y.strokes(func() bool { return saved(t, home) >= 1 })
	y.send("\x1b")
	y.see("Paused.")
	y.resize(59, 19)
	y.see("The window is too small.")
	y.resize(120, 40)
	y.see("Paused.")
	y.resize(80, 24)
	y.see("this key never arrives")
	y.send("\r")
	y.see(" pause")
	y.strokes(func() bool { return saved(t, home) >= 2 })
	y.stroke() // begun and left
	y.leave()
	if err := y.end(); err != nil {
		t.Fatalf("left with %v", err)
	}
	y.restored()
	first := journalOf(t, home)
	if len(first) < 3 {
		t.Fatalf("%d drills on the journal, want two and a part", len(first))
	}
	sameStrokes(t, first, y.made)

	again := &typist{console: open(t, 80, 24, home, nil, "underlay")}
	again.see("Practised on 1 of the last 7 days.")
	again.send("\r")
	again.see(" pause")
	again.stroke()
	again.leave()
	if err := again.end(); err != nil {
		t.Fatal(err)
	}
	all := journalOf(t, home)
	sameStrokes(t, all, append(y.made, again.made...))
	if all[0].Session == all[len(all)-1].Session {
		t.Error("both sittings have one name")
	}
}

func TestSignalsGiveTheTerminalBack(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(sig.String(), func(t *testing.T) {
			home := t.TempDir()
			y := &typist{console: open(t, 80, 24, home, nil, "underlay")}
			y.begin("8 minutes today")
			y.send("\r")
			y.see(" pause")
			y.stroke()
			y.cmd.Process.Signal(sig)
			if err := y.end(); err != nil {
				t.Errorf("ended with %v", err)
			}
			y.restored()
			sameStrokes(t, journalOf(t, home), y.made)
		})
	}
}

// A program that is killed loses what was not saved yet and nothing else, and
// is in nobody's way the next time.
func TestKilledDuringPractice(t *testing.T) {
	home := t.TempDir()
	y := &typist{console: open(t, 80, 24, home, nil, "underlay")}
	y.begin("8 minutes today")
	y.send("\r")
	y.see(" pause")
	y.strokes(func() bool { return saved(t, home) >= 1 })
	y.stroke()
	if err := y.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	y.end()
	kept := 0
	for _, d := range journalOf(t, home) {
		kept += len(d.Keys)
	}
	if kept == 0 || kept >= len(y.made) {
		t.Fatalf("%d of %d strokes are there, want all but the drill in hand", kept, len(y.made))
	}
	sameStrokes(t, journalOf(t, home), y.made[:kept])

	again := &typist{console: open(t, 80, 24, home, nil, "underlay")}
	again.see("Practised on 1 of the last 7 days.")
	again.send("\r")
	again.see(" pause")
	again.stroke()
	again.leave()
	if err := again.end(); err != nil {
		t.Fatal(err)
	}
	sameStrokes(t, journalOf(t, home), append(y.made[:kept:kept], again.made...))
}

func TestPanicGivesTheTerminalBack(t *testing.T) {
	home := t.TempDir()
	trigger := filepath.Join(home, "panic")
	y := &typist{console: open(t, 80, 24, home, []string{"PANIC_AT=" + trigger}, "underlay-breaking")}
	y.begin("8 minutes today")
	y.send("\r")
	y.see(" pause")
	if err := os.WriteFile(trigger, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	y.send("x")
	if err := y.end(); err == nil {
		t.Fatal("it did not break")
	}
	y.until("the panic's own words", func() bool { return strings.Contains(string(y.raw), "the clock broke on purpose") })
	y.restored()
}

// Eight minutes of practice on two boards, with a clock that each key puts
// forward: slips, other sizes, the other board, and Rest.
func TestWholeSittingInATerminal(t *testing.T) {
	if testing.Short() {
		t.Skip("takes about two thousand strokes")
	}
	home := t.TempDir()
	config := filepath.Join(home, ".config", "underlay")
	if err := os.MkdirAll(config, 0o700); err != nil {
		t.Fatal(err)
	}
	text := "boards = [\"split-38\", \"ansi-61\"]\n"
	if err := os.WriteFile(filepath.Join(config, "underlay.toml"), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	clock := filepath.Join(home, "clock")
	begin := time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)
	if err := errors.Join(os.WriteFile(clock, nil, 0o600), os.Chtimes(clock, time.Time{}, begin)); err != nil {
		t.Fatal(err)
	}
	y := &typist{console: open(t, 80, 24, home, []string{"CLOCK=" + clock}, "underlay-stepped", "today", "--minutes", "8"), clock: clock}
	y.see("8 minutes today")
	y.send("\r")
	y.see(" pause")
	boards, sizes := 0, [][2]int{{100, 30}, {60, 20}, {80, 24}}
	for n := 0; ; n++ {
		y.until("something to do", func() bool {
			return strings.Contains(y.text(), " pause") || strings.Contains(y.text(), "Enter ")
		})
		screen := y.screen()
		switch {
		case strings.HasPrefix(strings.TrimSpace(screen), "done"):
			if boards < 2 {
				t.Errorf("asked %d times for a board, want the other one and the first again", boards)
			}
			y.see("practised")
			y.see("q leave")
			y.send("q")
			if err := y.end(); err != nil {
				t.Fatal(err)
			}
			y.restored()
			sameStrokes(t, journalOf(t, home), y.made)
			return
		case strings.Contains(screen, "Now take"):
			boards++
			y.goOn()
		case !strings.Contains(screen, " pause"):
			y.goOn()
		case n%97 == 50:
			y.slip()
		case n%150 == 149:
			y.resize(sizes[0][0], sizes[0][1])
			sizes = append(sizes[1:], sizes[0])
		default:
			y.stroke()
		}
		if n > 20000 {
			t.Fatalf("no end:\n%s", y.screen())
		}
	}
}

// leave leaves a drill as the bottom line says: the key for it is another one
// where Control+c is asked for or could come by a slip.
func (y *typist) leave() {
	y.Helper()
	y.ready()
	switch screen := y.screen(); {
	case strings.Contains(screen, "Control+c leave"):
		y.send("\x03")
	case strings.Contains(screen, "Control+q leave"):
		y.send("\x11")
	default:
		y.send("\x1b")
		y.see("Paused.")
		y.send("q")
	}
}

// goOn presses Enter where the keys are told, and waits for another screen.
func (y *typist) goOn() {
	y.Helper()
	y.until("Enter to be told", func() bool { return strings.Contains(y.text(), "Enter ") })
	first := y.screen()
	y.send("\r")
	y.until("another screen", func() bool { return y.text() != first })
}

// A first start on which boards are chosen by typing parts of their names.
func TestFirstStartInATerminal(t *testing.T) {
	home := t.TempDir()
	y := open(t, 80, 24, home, nil, "underlay")
	y.see("which board are you learning?")
	y.send("grid")
	y.until("the list to be narrowed", func() bool { return strings.Contains(y.text(), "> grid-48") && !strings.Contains(y.text(), "split-38") })
	y.send("\r")
	y.see("which board do you keep up besides grid-48?")
	y.send("german")
	y.see("> iso-62-de")
	y.send("\r")
	y.see("8 minutes today")
	y.see("clinician")
	y.send("q")
	if err := y.end(); err != nil {
		t.Fatal(err)
	}
	y.restored()
	text, err := os.ReadFile(filepath.Join(home, ".config", "underlay", "underlay.toml"))
	if want := "boards = [\"grid-48-de\", \"iso-62-de\"]\n"; err != nil || string(text) != want {
		t.Errorf("written %q (%v), want %q", text, err, want)
	}
	again := open(t, 80, 24, home, nil, "underlay")
	again.see("8 minutes today")
	again.send("q")
	if err := again.end(); err != nil {
		t.Fatal(err)
	}
}

// A board described by pressing its keys, from the first start: the program is
// killed in the middle, goes on with it, leaves the file alone that has the name,
// and the board is used.
func TestCaptureFromTheFirstStart(t *testing.T) {
	home := t.TempDir()
	boards := filepath.Join(home, ".config", "underlay", "boards")
	precious := filepath.Join(boards, "mine.toml")
	if err := errors.Join(os.MkdirAll(boards, 0o700), os.WriteFile(precious, []byte("# precious\n"), 0o600)); err != nil {
		t.Fatal(err)
	}
	y := open(t, 80, 24, home, nil, "underlay")
	y.see("which board are you learning?")
	y.send("none of\r")
	y.see("which keys are there?")
	y.send("split 2x2+1\r")
	y.see("what is it called?")
	y.send("mine\r")
	y.see("what is the computer set to?")
	y.send("\r")
	y.see("0 of 10 keys")
	y.send("qwui")
	y.see("4 of 10 keys")
	if err := y.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	y.end()

	y = open(t, 80, 24, home, nil, "underlay")
	y.see("> go on")
	y.send("\r")
	y.see("4 of 10 keys")
	y.send("asjk \r")
	y.see("does a key do something else when it is held?")
	y.send("\r")
	y.see("this is the board")
	y.send("\r")
	y.see("there is a board named mine already")
	y.send("other\r")
	y.see("other is saved")
	y.send("\r")
	y.see("which board do you keep up besides other?")
	y.send("\r")
	y.see("8 minutes today")
	y.send("q")
	if err := y.end(); err != nil {
		t.Fatal(err)
	}
	y.restored()
	if left, err := os.ReadFile(precious); err != nil || string(left) != "# precious\n" {
		t.Errorf("the file that was there: %q, %v", left, err)
	}
	src, err := os.ReadFile(filepath.Join(boards, "other.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if b, found := board.Read("other.toml", src); b == nil || len(b.Keys()) != 10 {
		t.Errorf("%v\n%s", found.Err(), src)
	}
	if text, err := os.ReadFile(filepath.Join(home, ".config", "underlay", "underlay.toml")); err != nil || string(text) != "boards = [\"other\", \"ansi-61\"]\n" {
		t.Errorf("written %q (%v)", text, err)
	}
}
