package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underlay/cmd/underlay/standing"
)

// With its cache, and with one that was deleted, cut, changed, of another
// version or of an earlier time, progress tells the same.
func TestProgressDoesNotDependOnItsCache(t *testing.T) {
	e := home(t, 12)
	want := progressJSON(t, e)
	if !strings.Contains(want, `"split-38"`) {
		t.Fatal("no board in it")
	}
	cache := filepath.Join(e.Dirs.Cache, "progress")
	good, err := os.ReadFile(cache)
	if err != nil {
		t.Fatalf("nothing was kept: %v", err)
	}
	for name, damage := range map[string]func() error{
		"as it is": func() error { return nil },
		"deleted":  func() error { return os.Remove(cache) },
		"torn":     func() error { return os.WriteFile(cache, good[:len(good)/2], 0o600) },
		"changed":  func() error { return os.WriteFile(cache, changedByte(good, len(good)-9), 0o600) },
		"of another version": func() error {
			return os.WriteFile(cache, bytes.Replace(good, []byte(`"version":1`), []byte(`"version":9`), 1), 0o600)
		},
		"empty": func() error { return os.WriteFile(cache, nil, 0o600) },
	} {
		if err := damage(); err != nil {
			t.Fatal(err)
		}
		if got := progressJSON(t, e); got != want {
			t.Errorf("the cache %s: another result", name)
		}
	}
}

func changedByte(b []byte, i int) []byte {
	c := bytes.Clone(b)
	c[i] ^= 0x20
	return c
}

// A cache of an earlier time is gone on with: the end is as if all had been
// read at once.
func TestProgressGoesOnFromAnOldCache(t *testing.T) {
	e, whole := home(t, 5), home(t, 12)
	progressJSON(t, e)
	journal := "invented.journal"
	all, err := os.ReadFile(filepath.Join(whole.Dirs.Journal(), journal))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(e.Dirs.Journal(), journal), all, 0o600); err != nil {
		t.Fatal(err)
	}
	if got, want := progressJSON(t, e), progressJSON(t, whole); got != want {
		t.Error("another result than without the old cache")
	}
}

// A directory that cannot be written to costs the cache and nothing else.
func TestProgressWithoutPlaceForACache(t *testing.T) {
	e := home(t, 2)
	want := progressJSON(t, e)
	clearCache(t, e)
	// A file stands where the directory would.
	if err := errors.Join(os.MkdirAll(filepath.Dir(e.Dirs.Cache), 0o700), os.WriteFile(e.Dirs.Cache, nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	if got := progressJSON(t, e); got != want {
		t.Error("another result")
	}
}

// The table has every stroke and slip that the days have.
func TestProgressCSV(t *testing.T) {
	e := home(t, 3)
	file := filepath.Join(t.TempDir(), "strokes.csv")
	if status := run([]string{"progress", "--csv", file}, e); status != 0 {
		t.Fatalf("exit status %d", status)
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0], " "); got != "date board symbol stroke tries slips timed_tries median_ms first_ms minutes" {
		t.Errorf("names %q", got)
	}
	tries := map[string]int{}
	for _, r := range rows[1:] {
		var n int
		if err := json.Unmarshal([]byte(r[4]), &n); err != nil {
			t.Fatal(err)
		}
		tries[r[0]] += n
	}
	var s standing.Standing
	if err := json.Unmarshal([]byte(progressJSON(t, e)), &s); err != nil {
		t.Fatal(err)
	}
	if len(s.Days) != 3 || len(tries) != 3 {
		t.Errorf("%d days, %d in the table", len(s.Days), len(tries))
	}
	for _, d := range s.Days {
		if tries[d.Date] != d.Strokes {
			t.Errorf("%s: %d strokes, the table has %d", d.Date, d.Strokes, tries[d.Date])
		}
	}
}

// A page that cannot be written leaves what was there, and no half of it.
func TestProgressPageIsWholeOrNotThere(t *testing.T) {
	e := home(t, 1)
	dir := t.TempDir()
	page := filepath.Join(dir, "page.html")
	if status := run([]string{"progress", "--page", page}, e); status != 0 {
		t.Fatalf("exit status %d", status)
	}
	first, err := os.ReadFile(page)
	if err != nil || !bytes.HasSuffix(first, []byte("</html>\n")) {
		t.Fatalf("the page ends in %q: %v", first[max(0, len(first)-20):], err)
	}
	for name, to := range map[string]string{
		"no directory": filepath.Join(dir, "none", "page.html"),
		"a directory":  dir,
	} {
		var said bytes.Buffer
		e.Stderr = &said
		if status := run([]string{"progress", "--page", to}, e); status != failed {
			t.Errorf("%s: exit status %d", name, status)
		}
		if !strings.HasPrefix(said.String(), "underlay: write the page \"") || strings.Count(said.String(), "\n") != 1 {
			t.Errorf("%s: %q", name, said.String())
		}
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 1 {
		t.Errorf("%d files are left, want the page alone: %v", len(left), err)
	}
}

// On a terminal there is a sign of life while much is read, and nothing is left
// of it; elsewhere there is none.
func TestProgressShowsThatItReads(t *testing.T) {
	e := home(t, 40)
	var said bytes.Buffer
	e.Stderr = &said
	if status := run([]string{"progress"}, e); status != 0 || said.Len() > 0 {
		t.Fatalf("exit status %d, %q", status, said.String())
	}
	e.Terminal = func(stream any) bool { return stream == e.Stderr }
	for _, args := range [][]string{{"progress"}, {"progress", "--csv", filepath.Join(t.TempDir(), "a.csv")}, {"journal", "export"}} {
		clearCache(t, e)
		said.Reset()
		if status := run(args, e); status != 0 {
			t.Fatalf("%v: exit status %d", args, status)
		}
		if text := said.String(); !strings.HasPrefix(text, "\rreading the journal: 1000 drills") || !strings.HasSuffix(text, " \r") || strings.Contains(text, "\n") {
			t.Errorf("%v: %q", args, text)
		}
	}
}
