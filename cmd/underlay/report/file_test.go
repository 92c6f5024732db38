package report

import (
	"errors"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

func content(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

// A file is written whole or not at all, through a link where there is one.
func TestFileIsWhole(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "page"), filepath.Join(dir, "link")
	if err := errors.Join(File{Name: file}.Write(content("first")), os.Symlink(file, link)); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("half way")
	if err := (File{Name: link}).Write(func(w io.Writer) error { io.WriteString(w, "ha"); return broken }); !errors.Is(err, broken) {
		t.Errorf("error %v", err)
	}
	if err := (File{Name: link, Force: true}).Write(content("second")); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(file)
	if err != nil || string(got) != "second" {
		t.Errorf("%q, %v", got, err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Error("the link is gone")
	}
	if left, _ := os.ReadDir(dir); len(left) != 2 {
		t.Errorf("%d files are left", len(left))
	}
}

// over is a file that is there, and what is to be written in its place.
type over struct {
	was, is string
	begins  int
	alike   bool // it may be
}

// overs are files of all kinds, over others.
func overs(t *testing.T) map[string]over {
	made := func(write func(io.Writer) error) string {
		var b strings.Builder
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	sheet := func(name string, write func(io.Writer, *board.Board, []string) error, layers ...string) string {
		b, err := board.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		return made(func(w io.Writer) error { return write(w, b, layers) })
	}
	row := standing.Row{Date: "2026-03-01", Board: "b", Symbol: "(", Stroke: "r1c1", Tries: 3}
	none := made(func(w io.Writer) error { return CSV(w, func(func(standing.Row) bool) {}) })
	one := made(func(w io.Writer) error { return CSV(w, func(yield func(standing.Row) bool) { yield(row) }) })
	all := standings(t)
	first, then := pageOf(t, all["nothing"]), pageOf(t, all["one board"])
	return map[string]over{
		"a page":                      {first, then, PageBegins, true},
		"another page":                {"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<title>mine</title>\n", first, PageBegins, false},
		"a table":                     {none, one, CSVBegins, true},
		"another table":               {"date,weight\n", one, CSVBegins, false},
		"a table, for a page":         {one, first, PageBegins, false},
		"no whole line":               {strings.TrimSuffix(none, "\n"), one, CSVBegins, false},
		"an empty file":               {"", one, CSVBegins, true},
		"a sheet":                     {sheet("split-38", Sheet), sheet("split-38", Sheet, "marks"), SheetBegins, true},
		"a sheet of another board":    {sheet("split-42", Sheet), sheet("split-38", Sheet), SheetBegins, false},
		"a sheet of text":             {sheet("split-38", SheetText), sheet("split-38", SheetText, "marks"), SheetTextBegins, true},
		"one of another board's text": {sheet("split-42", SheetText), sheet("split-38", SheetText), SheetTextBegins, false},
	}
}

// What was made before is written over, and an empty file; anything else is left as it is, but for force.
func TestFileLeavesOthersAlone(t *testing.T) {
	for name, c := range overs(t) {
		file := filepath.Join(t.TempDir(), "file")
		if err := os.WriteFile(file, []byte(c.was), 0o600); err != nil {
			t.Fatal(err)
		}
		err, want := File{Name: file, Begins: c.begins}.Write(content(c.is)), c.was
		if c.alike {
			want = c.is
		}
		if errors.Is(err, ErrOther) == c.alike {
			t.Errorf("%s: error %v", name, err)
		}
		if got, _ := os.ReadFile(file); string(got) != want {
			t.Errorf("%s: the file is another one now, or was left: %v", name, err)
		}
		if err := (File{Name: file, Begins: c.begins, Force: true}).Write(content(c.is)); err != nil {
			t.Errorf("%s: by force: %v", name, err)
		}
		if got, _ := os.ReadFile(file); string(got) != c.is {
			t.Errorf("%s: was left in spite of force", name)
		}
	}
}

// A signal that comes while a file is written does not end the program half way:
// it is told when the file is whole.
func TestFileIsWrittenToItsEnd(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no process can be sent an interrupt there")
	}
	seen := make(chan os.Signal, 1)
	written := false
	err := uninterrupted(func() error {
		signal.Notify(seen, os.Interrupt)
		self, err := os.FindProcess(os.Getpid())
		if err != nil {
			return err
		}
		if err := self.Signal(os.Interrupt); err != nil {
			return err
		}
		<-seen
		signal.Stop(seen) // returns when all who wait for signals have it
		written = true
		return nil
	})
	if !written || err == nil || !strings.Contains(err.Error(), "it was written to its end") {
		t.Errorf("written: %v, error %v", written, err)
	}
}
