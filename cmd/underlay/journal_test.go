package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// journalEnv is an environment with a journal of its own.
func journalEnv(t *testing.T, terminal bool) (env *Env, out *bytes.Buffer, dir string) {
	t.Helper()
	top := t.TempDir()
	out = &bytes.Buffer{}
	env = &Env{
		Stdin: strings.NewReader(""), Stdout: out, Stderr: io.Discard,
		Getenv: func(string) string { return "" }, Now: func() time.Time { return time.Date(2026, 4, 1, 9, 0, 0, 0, time.UTC) },
		Dirs:     Dirs{Data: top, State: filepath.Join(top, "state")},
		Terminal: func(any) bool { return terminal }, Columns: func(any) int { return 80 },
	}
	dir = env.Dirs.Journal()
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	return env, out, dir
}

func line(t *testing.T, r journal.Record) []byte {
	t.Helper()
	b, err := journal.Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestVerifyTellsATornLine(t *testing.T) {
	env, out, dir := journalEnv(t, false)
	file := append(line(t, journal.Header{At: env.Now(), Version: 1}), "12345678 {"...)
	if err := os.WriteFile(filepath.Join(dir, "m.journal"), file, 0o600); err != nil {
		t.Fatal(err)
	}
	if status := run([]string{"journal", "verify"}, env); status != 0 {
		t.Errorf("exit status %d", status)
	}
	for _, want := range []string{"line 2: torn: 10 bytes without an end of line", "that a crash cut short"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	if after, _ := os.ReadFile(filepath.Join(dir, "m.journal")); !bytes.Equal(after, file) {
		t.Error("verifying changed the journal")
	}
}

// What a journal from elsewhere holds does not drive the terminal, and reaches a file as it is.
func TestExportToATerminalIsSafe(t *testing.T) {
	for _, terminal := range []bool{true, false} {
		env, out, dir := journalEnv(t, terminal)
		d := journal.Drill{At: env.Now(), Session: "s", Board: "\x1b[2J\x9b", Keys: []journal.Key{{Symbol: "a", MS: 1}}}
		if err := os.WriteFile(filepath.Join(dir, "m.journal"), line(t, d), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"journal", "export"}, {"journal", "strike"}, {"journal", "verify"}} {
			out.Reset()
			if status := run(args, env); status != 0 {
				t.Errorf("%v: exit status %d", args, status)
			}
			raw := strings.Contains(out.String(), "\x1b")
			if raw != (!terminal && args[1] == "export") {
				t.Errorf("%v, terminal %v: wrote %q", args, terminal, out)
			}
		}
	}
}

// CSV and JSON tell the same, with the documented names.
func TestExportsAgree(t *testing.T) {
	env, out, dir := journalEnv(t, false)
	y := journaltest.Five()
	y.Days = 2
	f, err := os.Create(filepath.Join(dir, "m.journal"))
	if err != nil {
		t.Fatal(err)
	}
	strokes, err := y.Write(f)
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	if status := run([]string{"journal", "export"}, env); status != 0 {
		t.Fatalf("exit status %d", status)
	}
	rows, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out.Reset()
	if status := run([]string{"journal", "export", "--json"}, env); status != 0 {
		t.Fatalf("exit status %d", status)
	}
	var objects []map[string]any
	if err := json.Unmarshal(out.Bytes(), &objects); err != nil {
		t.Fatal(err)
	}
	if len(rows) != strokes+1 || len(objects) != strokes {
		t.Fatalf("%d strokes: %d rows and %d objects", strokes, len(rows), len(objects))
	}
	help := newJournalExport(env).Long
	for i, object := range objects {
		if len(object) != len(rows[0]) {
			t.Fatalf("object %d has %d members", i, len(object))
		}
		for c, name := range rows[0] {
			v, _ := json.Marshal(object[name])
			if text, ok := object[name].(string); ok && rows[i+1][c] != text || !ok && rows[i+1][c] != string(v) {
				t.Fatalf("row %d, %s: CSV has %q, JSON %v", i, name, rows[i+1][c], object[name])
			}
			if i == 0 && !strings.Contains(help, "\n  "+name+" ") {
				t.Errorf("%s is not documented", name)
			}
		}
	}
	if !slices.Equal(rows[0], columns()) {
		t.Errorf("the head is %v", rows[0])
	}
}

func TestCounted(t *testing.T) {
	for want, got := range map[string]string{"1 copy": counted(1, "copy"), "2 copies": counted(2, "copy"), "0 lines": counted(0, "line")} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
