package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// bench is a command run in a test: its directories, its clock and what it
// said.
type bench struct {
	Env
	out, err bytes.Buffer
}

func newBench(t *testing.T) *bench {
	t.Helper()
	dir := t.TempDir()
	b := &bench{}
	b.Env = Env{
		Stdin: strings.NewReader(""), Stdout: &b.out, Stderr: &b.err,
		Getenv:   func(string) string { return "" },
		Now:      func() time.Time { return time.Date(2026, 3, 2, 18, 30, 0, 0, time.UTC) },
		Terminal: func(any) bool { return false },
		Columns:  func(any) int { return 0 },
		Dirs: Dirs{Config: filepath.Join(dir, "config"), Data: filepath.Join(dir, "data"),
			State: filepath.Join(dir, "state"), Cache: filepath.Join(dir, "cache")},
	}
	return b
}

// run performs a command line and fails unless its exit status is as wanted.
func (b *bench) run(t *testing.T, status int, args ...string) {
	t.Helper()
	b.out.Reset()
	b.err.Reset()
	if got := run(args, &b.Env); got != status {
		t.Fatalf("%q: exit status %d, want %d\n%s%s", args, got, status, b.out.String(), b.err.String())
	}
}

// drills returns what the journal has.
func (b *bench) drills(t *testing.T) []journal.Drill {
	t.Helper()
	h, err := journal.Read(os.DirFS(b.Dirs.Journal()))
	if err != nil {
		t.Fatal(err)
	}
	var out []journal.Drill
	for d := range h.Drills(journal.Position{}) {
		out = append(out, d)
	}
	if len(h.Problems()) > 0 {
		t.Errorf("problems: %v", h.Problems())
	}
	return out
}

// reader answers the prompts that it sees in what the program printed.
type reader struct {
	seen   *bytes.Buffer
	answer func(prompt string, n int) (string, bool)
	n      int
	rest   []byte
}

func (r *reader) Read(p []byte) (int, error) {
	if len(r.rest) == 0 {
		line, ok := r.answer(promptIn(r.seen.String()), r.n)
		if !ok {
			return 0, io.EOF
		}
		r.n++
		r.rest = []byte(line + "\n")
	}
	n := copy(p, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// promptIn finds the last prompt: the line after an empty one after the block
// and the time left.
func promptIn(text string) string {
	lines := strings.Split(text, "\n")
	for i := len(lines) - 1; i >= 2; i-- {
		if strings.HasSuffix(lines[i-2], " left") || strings.HasSuffix(lines[i-2], "nearly done") {
			return strings.TrimPrefix(lines[i], "  ")
		}
	}
	return ""
}

// Lines that are typed right are on the journal as right strokes without
// latencies, one that is typed wrong with its slips, and nothing else is.
func TestPlainPutsLinesOnTheJournal(t *testing.T) {
	b := newBench(t)
	clock := b.Now()
	b.Now = func() time.Time { clock = clock.Add(4 * time.Second); return clock }
	var prompts []string
	b.Stdin = &reader{seen: &b.out, answer: func(prompt string, n int) (string, bool) {
		prompts = append(prompts, prompt)
		switch n {
		case 0, 1:
			return prompt, true
		case 2: // the first symbol is another one
			return "€" + string([]rune(prompt)[1:]), true
		}
		return "", false
	}}
	b.run(t, 0, "today", "--plain")
	got := b.drills(t)
	if len(got) != 3 {
		t.Fatalf("%d drills on the journal, want 3\n%s", len(got), b.out.String())
	}
	for i, d := range got {
		asked, wrong := "", 0
		for _, k := range d.Keys {
			if k.Symbol == "Space" {
				k.Symbol = " "
			}
			asked += k.Symbol
			if k.Wrong() {
				wrong++
			}
			if k.MS != 0 || !k.Flags.Has(journal.Paused) {
				t.Errorf("drill %d: %s has a latency: %+v", i, k.Symbol, k)
			}
		}
		if strip(asked) != strip(prompts[i]) {
			t.Errorf("drill %d: asked %q, shown %q", i, asked, prompts[i])
		}
		if want := i / 2; wrong != want {
			t.Errorf("drill %d: %d wrong, want %d", i, wrong, want)
		}
	}
	if got[0].Session != got[2].Session || got[0].Board != "split-38" {
		t.Errorf("%+v", got[0])
	}
	if out := b.out.String(); strings.Count(out, "all right.") != 2 || strings.Count(out, "1 wrong:") != 1 {
		t.Errorf("told:\n%s", out)
	}

	b.Stdin = strings.NewReader("")
	b.run(t, 0, "plan")
	if !strings.Contains(b.out.String(), "Earlier today: ") {
		t.Errorf("not remembered:\n%s", b.out.String())
	}
}

func strip(s string) string { return strings.NewReplacer(" ", "", "␣", "").Replace(s) }

// A second instance is told so, and changes nothing; looking is fine.
func TestSecondInstance(t *testing.T) {
	b := newBench(t)
	machine, err := journal.Machine(b.Dirs.State)
	if err != nil {
		t.Fatal(err)
	}
	first, err := journal.Open(journal.NewDisk(b.Dirs.Journal()), machine)
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	b.Terminal = func(any) bool { return true }
	b.run(t, 1, "today")
	want := "underlay: another underlay is writing this journal\nhint: practise there, or leave it first; looking at plan and progress is fine\n"
	if b.err.String() != want {
		t.Errorf("told %q", b.err.String())
	}
	b.Terminal = func(any) bool { return false }
	b.run(t, 0, "plan")
	b.Stdin = &reader{seen: &b.out, answer: func(prompt string, n int) (string, bool) { return prompt, n < 1 }}
	b.run(t, 1, "today", "--plain")
	if !strings.Contains(b.err.String(), "not all was saved: another underlay is writing this journal") {
		t.Errorf("told %q", b.err.String())
	}
	if len(b.drills(t)) > 0 {
		t.Error("something was written")
	}
}

// A disk that cannot be written to is told, and nothing is claimed to be saved.
func TestDiskThatCannotBeWritten(t *testing.T) {
	b := newBench(t)
	if err := os.WriteFile(b.Dirs.State, nil, 0o600); err != nil { // a file where the directory should be
		t.Fatal(err)
	}
	b.Stdin = &reader{seen: &b.out, answer: func(prompt string, n int) (string, bool) { return prompt, n < 1 }}
	b.run(t, 1, "today", "--plain")
	if !strings.Contains(b.err.String(), "not all was saved: ") || !strings.Contains(b.err.String(), "not a directory") {
		t.Errorf("told %q", b.err.String())
	}
	b.Terminal = func(any) bool { return true }
	b.run(t, 1, "today")
	if !strings.Contains(b.err.String(), "not a directory") {
		t.Errorf("told %q", b.err.String())
	}
}

// A journal that cannot be read is told before anything else.
func TestJournalThatCannotBeRead(t *testing.T) {
	b := newBench(t)
	if err := os.WriteFile(b.Dirs.Data, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	b.run(t, 1, "plan")
	if !strings.HasPrefix(b.err.String(), "underlay: read the journal ") || !strings.Contains(b.err.String(), ": not a directory\n") {
		t.Errorf("told %q", b.err.String())
	}
}

// Without a home directory practice on a screen is refused with advice.
func TestNoHome(t *testing.T) {
	b := newBench(t)
	b.Dirs = Dirs{}
	b.Terminal = func(any) bool { return true }
	b.run(t, 1, "today")
	if !strings.Contains(b.err.String(), "no home directory") || !strings.Contains(b.err.String(), "hint: set HOME") {
		t.Errorf("told %q", b.err.String())
	}
}

// An input that breaks off is told.
func TestInputThatFails(t *testing.T) {
	b := newBench(t)
	b.Stdin = io.MultiReader(strings.NewReader("\n"), failing{})
	b.run(t, 1, "today", "--plain")
	if !strings.Contains(b.err.String(), "read the input: it broke") {
		t.Errorf("told %q", b.err.String())
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errors.New("it broke") }

// A board that has changed since the last time is told before practice, until it
// has been practised on; putting the file back is told as well.
func TestChangedBoardIsTold(t *testing.T) {
	b := newBench(t)
	split, err := board.Load("split-38")
	if err != nil {
		t.Fatal(err)
	}
	b.run(t, 0, "simulate", "--days", "1", "--minutes", "2", "--into", filepath.Dir(b.Dirs.Data)+"/made")
	b.Dirs.Data = filepath.Join(filepath.Dir(b.Dirs.Data), "made", "underlay")
	b.run(t, 0, "today", "--plain")
	if strings.Contains(b.out.String(), "changed") {
		t.Errorf("told without a change:\n%s", b.out.String())
	}

	file := filepath.Join(b.Dirs.Boards(), "split-38.toml")
	if err := os.MkdirAll(b.Dirs.Boards(), 0o700); err != nil {
		t.Fatal(err)
	}
	swapped := strings.Replace(string(split.Source()), `(    )    "`, `)    (    "`, 1)
	if err := os.WriteFile(file, []byte(swapped), 0o600); err != nil {
		t.Fatal(err)
	}
	const told = "split-38 has changed: 2 moved (( )); "
	b.run(t, 0, "today", "--plain")
	if !strings.Contains(b.out.String(), told) {
		t.Errorf("not told:\n%s", b.out.String())
	}
	b.Stdin = &reader{seen: &b.out, answer: func(prompt string, n int) (string, bool) { return prompt, n < 1 }}
	b.run(t, 0, "today", "--plain")
	b.Stdin = strings.NewReader("")
	b.run(t, 0, "today", "--plain")
	if strings.Contains(b.out.String(), "has changed") {
		t.Errorf("told after practice:\n%s", b.out.String())
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	b.run(t, 0, "today", "--plain")
	if !strings.Contains(b.out.String(), told) {
		t.Errorf("the file put back is not told:\n%s", b.out.String())
	}
}

// A whole sitting line by line, from the plan to the account at its end, on both
// boards.
func TestPlainWholeSitting(t *testing.T) {
	b := newBench(t)
	clock := b.Now()
	b.Now = func() time.Time { clock = clock.Add(3 * time.Second); return clock }
	lines := 0
	b.Stdin = &reader{seen: &b.out, answer: func(prompt string, n int) (string, bool) {
		lines = n
		return prompt, n < 400
	}}
	b.run(t, 0, "today", "--plain", "--minutes", "3")
	out := b.out.String()
	for _, want := range []string{"3 minutes today", "all right.", "Now take the standard board, ansi-61.", "\nrest, after ", " strokes\n"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	if lines >= 399 {
		t.Error("the sitting never ends")
	}
	boards := map[string]int{}
	for _, d := range b.drills(t) {
		boards[d.Board]++
		for _, k := range d.Keys {
			if k.Wrong() {
				t.Fatalf("%s went wrong: %+v", k.Symbol, d)
			}
		}
	}
	if boards["split-38"] == 0 || boards["ansi-61"] == 0 {
		t.Errorf("drills by board: %v", boards)
	}
}
