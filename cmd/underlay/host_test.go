package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

const commented = `# my settings
boards = ["split-38", "ansi-61"] # at home
minutes = 10 # enough

[mix]
go = 2 # most of it
`

// configured is a practice on a commented configuration.
func configured(t *testing.T, w wish) (*bench, *practice) {
	t.Helper()
	b := newBench(t)
	if err := os.MkdirAll(b.Dirs.Config, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(b.Dirs.ConfigFile(), []byte(commented), 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := b.practise(w)
	if err != nil {
		t.Fatal(err)
	}
	return b, p
}

func file(t *testing.T, b *bench) string {
	t.Helper()
	src, err := os.ReadFile(b.Dirs.ConfigFile())
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

// A key that never arrives is put into the configuration, and not asked for any
// more; the rest of the file, and what the command line asked for, stays.
func TestConfigureKeepsAKeyOut(t *testing.T) {
	b, p := configured(t, wish{minutes: 3, board: "split-42"})
	s := p.settings()
	if s.Minutes != 3 {
		t.Errorf("%d minutes", s.Minutes)
	}
	s.Keeps = []string{"F11"}
	got := p.Configure(session.Configure{Settings: s})
	if got.Err != nil {
		t.Fatal(got.Err)
	}
	if want := strings.Replace(commented, "\n[mix]", "keeps = [\"F11\"]\n\n[mix]", 1); file(t, b) != want {
		t.Errorf("written:\n%s", file(t, b))
	}
	if _, asked := p.course.ID(0, "F11"); asked {
		t.Error("F11 is still asked for")
	}
	if name := got.Planner.Boards()[0].Name; name != "split-42" || got.Settings.Minutes != 3 {
		t.Errorf("what the command line asked for is lost: %s, %d minutes", name, got.Settings.Minutes)
	}
}

// What a person changes in the sitting holds over the command line.
func TestConfigureChangesWhatTheCommandLineAsked(t *testing.T) {
	b, p := configured(t, wish{minutes: 3, board: "split-42"})
	s := p.settings()
	s.Minutes, s.Boards, s.Mix = 5, []string{"grid-48"}, []session.Weight{{Table: "go", Share: 1}, {Table: "shell", Share: 4}}
	got := p.Configure(session.Configure{Settings: s})
	if got.Err != nil {
		t.Fatal(got.Err)
	}
	want := "# my settings\nboards = [\"grid-48\"] # at home\nminutes = 5 # enough\n\n[mix]\ngo = 1 # most of it\nshell = 4\n"
	if file(t, b) != want {
		t.Errorf("written:\n%s", file(t, b))
	}
	if bs := got.Planner.Boards(); len(bs) != 1 || bs[0].Name != "grid-48" || got.Settings.Minutes != 5 {
		t.Errorf("in use: %d boards, %d minutes", len(bs), got.Settings.Minutes)
	}
}

// Settings that could not be written hold all the same, and are written with
// the next change, or at leaving.
func TestSettingsAreWrittenLate(t *testing.T) {
	b, p := configured(t, wish{})
	aside := b.Dirs.Config + "-aside"
	move := func(from, to string) {
		t.Helper()
		if err := os.Rename(from, to); err != nil {
			t.Fatal(err)
		}
	}
	change := func(how func(*session.Settings)) session.Configured {
		s := p.settings()
		how(&s)
		return p.Configure(session.Configure{Settings: s})
	}
	move(b.Dirs.Config, aside)
	if err := os.WriteFile(b.Dirs.Config, nil, 0o600); err != nil { // a file where the directory should be
		t.Fatal(err)
	}
	got := change(func(s *session.Settings) { s.Minutes = 5 })
	if got.Err == nil || got.Planner == nil || got.Settings.Minutes != 5 {
		t.Errorf("configured %+v", got)
	}
	if err := p.writeLate(); err == nil || !strings.Contains(err.Error(), "not written") {
		t.Errorf("left with %v", err)
	}
	move(b.Dirs.Config, b.Dirs.Config+"-full")
	move(aside, b.Dirs.Config)
	if got := change(func(s *session.Settings) { s.Aim = "coverage" }); got.Err != nil {
		t.Fatal(got.Err)
	}
	want := strings.Replace(commented, "minutes = 10 # enough\n", "minutes = 5 # enough\naim = \"coverage\"\n", 1)
	if file(t, b) != want {
		t.Errorf("written with the next change:\n%s", file(t, b))
	}
	move(b.Dirs.Config, aside)
	move(b.Dirs.Config+"-full", b.Dirs.Config)
	change(func(s *session.Settings) { s.Wrong = "wait" })
	move(b.Dirs.Config, b.Dirs.Config+"-full")
	move(aside, b.Dirs.Config)
	if err := p.writeLate(); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(file(t, b), "wrong = \"wait\"\n") {
		t.Errorf("written at leaving:\n%s", file(t, b))
	}
	if err := os.Remove(b.Dirs.ConfigFile()); err != nil {
		t.Fatal(err)
	}
	if err := p.writeLate(); err != nil || exists(b.Dirs.ConfigFile()) {
		t.Errorf("written again, with %v, though nothing has changed", err)
	}
}

// A board that cannot be used changes nothing.
func TestConfigureRefusesABrokenBoard(t *testing.T) {
	b, p := configured(t, wish{})
	if err := os.MkdirAll(b.Dirs.Boards(), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(b.Dirs.Boards(), "mine.toml"), []byte("name = 3\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := p.settings()
	s.Boards = []string{"mine"}
	got := p.Configure(session.Configure{Settings: s})
	if got.Err == nil || got.Planner != nil || got.Settings.Boards[0] != "split-38" {
		t.Errorf("configured %+v", got)
	}
	if file(t, b) != commented {
		t.Errorf("written:\n%s", file(t, b))
	}
}

// A configuration that is a link stays one.
func TestConfigureWritesThroughALink(t *testing.T) {
	b, p := configured(t, wish{})
	real := filepath.Join(t.TempDir(), "real.toml")
	if err := os.Rename(b.Dirs.ConfigFile(), real); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, b.Dirs.ConfigFile()); err != nil {
		t.Skip(err)
	}
	s := p.settings()
	s.Aim = "coverage"
	if got := p.Configure(session.Configure{Settings: s}); got.Err != nil {
		t.Fatal(got.Err)
	}
	if info, err := os.Lstat(b.Dirs.ConfigFile()); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v", err)
	}
	if src, _ := os.ReadFile(real); !strings.Contains(string(src), `aim = "coverage"`) {
		t.Errorf("written:\n%s", src)
	}
}

// The text of one's own lines cannot be read from the journal: what was typed of
// them is there, but not in its order.
func TestOwnLinesLoseTheirOrder(t *testing.T) {
	b := newBench(t)
	file := filepath.Join(t.TempDir(), "secret.c")
	if err := os.WriteFile(file, []byte("zebra = lantern + quilt;\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	var prompt string
	b.Stdin = &reader{seen: &b.out, answer: func(shown string, n int) (string, bool) { prompt = shown; return shown, n < 1 }}
	b.run(t, 0, "today", "--plain", "--kind", "own", "--from", file)
	got := b.drills(t)
	if len(got) != 1 || !got[0].Unordered || got[0].Kind != "own" {
		t.Fatalf("journal: %+v", got)
	}
	var text strings.Builder
	for _, k := range got[0].Keys {
		if r, ok := board.Symbol(k.Symbol).Rune(); ok {
			text.WriteString(string(r))
		}
		if k.Flags.Has(journal.Repair) {
			t.Errorf("%+v", k)
		}
	}
	if strings.Contains(text.String(), "zebra") || strings.Contains(text.String(), "lantern") || len(strip(text.String())) != len(strip("zebra = lantern + quilt;")) {
		t.Errorf("%q is on the journal as %q", prompt, text.String())
	}
}
