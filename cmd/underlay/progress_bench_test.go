package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"underlay/drills/board"
	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// yearsOf is an invented history of so many days on an embedded board.
func yearsOf(t testing.TB, days int) journaltest.Years {
	t.Helper()
	b, err := board.Load("split-38")
	if err != nil {
		t.Fatal(err)
	}
	y := journaltest.Five()
	y.Days, y.Strokes = days, nil
	y.Board = journal.Board{Name: b.Name, Hash: b.Hash(), Source: string(b.Source())}
	for _, s := range b.Symbols() {
		if st, ok := b.Drilled(s); ok && s.IsCharacter() {
			y.Strokes = append(y.Strokes, [2]string{string(s), st.String()})
		}
	}
	return y
}

// home is an Env with a journal of so many days and directories of its own.
func home(t testing.TB, days int) *Env {
	t.Helper()
	dir := t.TempDir()
	under := func(name string) string { return filepath.Join(dir, name, "underlay") }
	e := &Env{Stdin: bytes.NewReader(nil), Stdout: io.Discard, Stderr: io.Discard, Getenv: func(string) string { return "" },
		Now:      func() time.Time { return time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC) },
		Dirs:     Dirs{Config: under("config"), Data: under("data"), State: under("state"), Cache: under("cache")},
		Terminal: func(any) bool { return false }, Columns: func(any) int { return 80 }}
	if days == 0 {
		return e
	}
	if err := os.MkdirAll(e.Dirs.Journal(), 0o700); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(filepath.Join(e.Dirs.Journal(), "invented.journal"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := yearsOf(t, days).Write(f); err != nil {
		t.Fatal(err)
	}
	return e
}

// progressJSON runs the command and returns what it prints.
func progressJSON(t testing.TB, e *Env) string {
	t.Helper()
	var out, failed bytes.Buffer
	e.Stdout, e.Stderr = &out, &failed
	if status := run([]string{"progress", "--json"}, e); status != 0 {
		t.Fatalf("exit status %d: %s", status, failed.String())
	}
	return out.String()
}

func clearCache(t testing.TB, e *Env) {
	t.Helper()
	if err := os.RemoveAll(e.Dirs.Cache); err != nil {
		t.Fatal(err)
	}
}
