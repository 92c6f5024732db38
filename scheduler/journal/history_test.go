package journal_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"pgregory.net/rapid"

	"underlay/scheduler/journal"
)

// fileOf makes the file of a machine.
func fileOf(t interface{ Fatal(...any) }, machine string, records ...journal.Record) []byte {
	var b bytes.Buffer
	for _, r := range append([]journal.Record{journal.Header{At: start(), Version: 1, Machine: machine}}, records...) {
		line, err := journal.Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		b.Write(line)
	}
	return b.Bytes()
}

func dirOf(files map[string][]byte) fstest.MapFS {
	m := fstest.MapFS{}
	for name, data := range files {
		m[name] = &fstest.MapFile{Data: data}
	}
	return m
}

func TestMachinesAreReadAsOneHistory(t *testing.T) {
	a := fileOf(t, "a", drill(0), drill(3), drill(4))
	b := fileOf(t, "b", drill(1), drill(5))
	c := fileOf(t, "c", drill(2))
	for _, names := range [][3]string{{"a", "b", "c"}, {"c", "a", "b"}, {"b", "c", "a"}, {"c", "b", "a"}} {
		dir := dirOf(map[string][]byte{names[0] + ".journal": a, names[1] + ".journal": b, names[2] + ".journal": c})
		if got, _ := sessions(t, dir); join(got) != "d0 d1 d2 d3 d4 d5" {
			t.Errorf("%v: read %q", names, got)
		}
	}
}

func TestCopiesCountOnce(t *testing.T) {
	a := fileOf(t, "a", drill(0), drill(3), drill(4))
	older := a[:len(a)-20] // while the last line was being copied
	damaged := bytes.Replace(a, []byte(`"session":"d3"`), []byte(`"session":"dX"`), 1)
	dir := dirOf(map[string][]byte{
		"a.journal": damaged, "a (copy of Monday).journal": older, "b.journal": a, "z.journal": append(bytes.Clone(a), a...),
		".a.journal.tmp": a, ".hidden.journal": fileOf(t, "h", drill(9)), "notes.txt": []byte("not a journal"),
	})
	names, problems := sessions(t, dir)
	if join(names) != "d0 d3 d4" || len(problems) != 2 {
		t.Errorf("read %q, %v", names, problems)
	}
	report, err := journal.Verify(dir)
	must(t, err)
	if report.Drills != 3 || report.Sessions != 3 || report.Strokes != 6 || report.Copies != 10 || report.Good() {
		t.Errorf("verify says %+v", report)
	}
}

// Whatever the files are called, and however drills are spread over them and
// copied, the history is the same.
func TestOrderOfFilesDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "machines")
		var files [][]byte
		for m := range n {
			var records []journal.Record
			for range rapid.IntRange(0, 6).Draw(t, "drills") {
				d := drill(rapid.IntRange(0, 20).Draw(t, "minute")) // clocks that jump, too
				d.Session = fmt.Sprintf("%d-%d", m, len(records))
				records = append(records, d)
				if rapid.IntRange(0, 5).Draw(t, "strike") == 0 {
					records = append(records, journal.Strike{At: d.At, Session: fmt.Sprintf("%d-%d", rapid.IntRange(0, n-1).Draw(t, "of"), rapid.IntRange(0, 6).Draw(t, "which")), Undo: rapid.Bool().Draw(t, "undo")})
				}
			}
			files = append(files, fileOf(t, fmt.Sprint(m), records...))
		}
		read := func(order []int) string {
			dir := fstest.MapFS{}
			for i, m := range order {
				dir[fmt.Sprintf("%c.journal", 'a'+i)] = &fstest.MapFile{Data: files[m]}
			}
			h, err := journal.Read(dir)
			if err != nil {
				t.Fatal(err)
			}
			var out strings.Builder
			for d := range h.Drills(journal.Position{}) {
				fmt.Fprintf(&out, "%s %s\n", d.At, d.Session)
			}
			return out.String()
		}
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		once := read(order)
		twice := append(order, rapid.Permutation(order).Draw(t, "copies")...)
		if again := read(rapid.Permutation(twice).Draw(t, "order")); again != once {
			t.Errorf("read\n%s\nand in another order\n%s", once, again)
		}
	})
}

func TestStrikes(t *testing.T) {
	at := func(i int) time.Time { return drill(i).At }
	for name, c := range map[string]struct {
		files map[string][]byte
		want  string
	}{
		"after": {map[string][]byte{"a.journal": fileOf(t, "a", drill(0), drill(1), journal.Strike{At: at(2), Session: "d0"})}, "d1"},
		"on another machine": {map[string][]byte{"a.journal": fileOf(t, "a", drill(0), drill(1)),
			"b.journal": fileOf(t, "b", journal.Strike{At: at(9), Session: "d1"})}, "d0"},
		"undone": {map[string][]byte{"a.journal": fileOf(t, "a", drill(0), journal.Strike{At: at(2), Session: "d0"}),
			"b.journal": fileOf(t, "b", journal.Strike{At: at(3), Session: "d0", Undo: true})}, "d0"},
		"undone, the clock went back": {map[string][]byte{
			"a.journal": fileOf(t, "a", drill(0), journal.Strike{At: at(3), Session: "d0"}, journal.Strike{At: at(2), Session: "d0", Undo: true})}, "d0"},
		"undone at the same time, elsewhere": {map[string][]byte{"a.journal": fileOf(t, "a", drill(0), journal.Strike{At: at(2), Session: "d0", Undo: true}),
			"b.journal": fileOf(t, "b", journal.Strike{At: at(2), Session: "d0"})}, ""},
		"the same, other names": {map[string][]byte{"b.journal": fileOf(t, "a", drill(0), journal.Strike{At: at(2), Session: "d0", Undo: true}),
			"a.journal": fileOf(t, "b", journal.Strike{At: at(2), Session: "d0"})}, ""},
		"again": {map[string][]byte{"a.journal": fileOf(t, "a", drill(0), journal.Strike{At: at(2), Session: "d0"},
			journal.Strike{At: at(3), Session: "d0", Undo: true}, journal.Strike{At: at(4), Session: "d0"})}, ""},
		"before what it strikes": {map[string][]byte{"a.journal": fileOf(t, "a", journal.Strike{At: at(0), Session: "d1"}, drill(1), drill(2))}, "d2"},
	} {
		if got, _ := sessions(t, dirOf(c.files)); join(got) != c.want {
			t.Errorf("%s: read %q, want %q", name, got, c.want)
		}
	}
}

func TestEmptyHistory(t *testing.T) {
	for name, dir := range map[string]fstest.MapFS{"no files": {}, "empty file": {"a.journal": {}}, "a directory": {"a.journal/x": {}}} {
		if got, problems := sessions(t, dir); len(got) > 0 || len(problems) > 0 {
			t.Errorf("%s: read %q, %v", name, got, problems)
		}
		h, err := journal.Read(dir)
		must(t, err)
		if p := h.Progress(); p != 1 {
			t.Errorf("%s: progress is %v", name, p)
		}
	}
}

func TestZonesAreKept(t *testing.T) {
	d := drill(0)
	d.At = d.At.In(time.FixedZone("", -(9*3600 + 1800)))
	h, err := journal.Read(dirOf(map[string][]byte{"a.journal": fileOf(t, "a", d)}))
	must(t, err)
	for got := range h.Drills(journal.Position{}) {
		if got.At.Format(time.RFC3339) != "2026-03-01T08:30:00-09:30" {
			t.Errorf("read %v", got.At)
		}
	}
}

func TestVerifyTellsWhatIsThere(t *testing.T) {
	other, err := journal.Encode(journal.Strike{At: start(), Session: "d1"})
	must(t, err)
	dir := dirOf(map[string][]byte{"a.journal": append(fileOf(t, "a", journal.Board{At: start(), Hash: "h"}, drill(0), drill(1)), other...),
		"b.journal": fileOf(t, "b", func() journal.Drill { d := drill(2); d.Hash = "lost"; return d }())})
	r, err := journal.Verify(dir)
	must(t, err)
	if !r.Good() || r.Sessions != 3 || r.Drills != 3 || r.Strokes != 6 || join(r.Struck) != "d1" || join(r.NoBoard) != "lost" {
		t.Errorf("verify says %+v", r)
	}
	a := r.Files[0]
	if a.Machine != "a" || a.Version != 1 || a.Lines != 5 || a.Boards != 1 || a.Drills != 2 || a.Strikes != 1 || !a.First.Equal(drill(0).At) || !a.Last.Equal(drill(1).At) {
		t.Errorf("of the first file: %+v", a)
	}
}
