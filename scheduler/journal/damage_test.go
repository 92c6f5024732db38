package journal_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// sample is a short journal; its drills are named by their sessions d0, d1 ….
type sample struct {
	bytes []byte
	ends  []int // offset after each line
	names []string
}

func start() time.Time { return time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC) }

// drill is the i-th drill of a sample.
func drill(i int) journal.Drill {
	return journal.Drill{
		At: start().Add(time.Duration(i) * time.Minute), Session: fmt.Sprintf("d%d", i), Board: "b", Hash: "h", Kind: "pair",
		Keys: []journal.Key{{Symbol: "(", Stroke: "r4c3:hold r2c2", MS: 312.4}, {Symbol: ")", Stroke: "r1c1", MS: float64(200 + i), Got: "x"}},
	}
}

func newSample(t *testing.T, drills int) sample {
	t.Helper()
	records := []journal.Record{
		journal.Header{At: start(), Version: 1, Machine: "m"},
		journal.Board{At: start(), Name: "b", Hash: "h", Source: "x = 1\n"},
	}
	s := sample{names: []string{"", ""}}
	for i := range drills {
		records = append(records, drill(i))
		s.names = append(s.names, drill(i).Session)
	}
	for _, r := range records {
		line, err := journal.Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		s.bytes = append(s.bytes, line...)
		s.ends = append(s.ends, len(s.bytes))
	}
	return s
}

// sessions reads the history in dir and returns its drills' sessions.
func sessions(t *testing.T, dir fstest.MapFS) (names []string, problems []journal.Problem) {
	t.Helper()
	h, err := journal.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	for d := range h.Drills(journal.Position{}) {
		names = append(names, d.Session)
	}
	if h.Err() != nil {
		t.Fatal(h.Err())
	}
	return names, h.Problems()
}

// appendOne opens the journal of machine m in s and appends one drill.
func appendOne(t *testing.T, s *journaltest.Store, d journal.Drill) {
	t.Helper()
	j, err := journal.Open(s, "m")
	if err != nil {
		t.Fatal(err)
	}
	if err := j.Append(d); err != nil {
		t.Fatal(err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
}

func join(names []string) string { return strings.Trim(strings.Join(names, " "), " ") }

// keep lists the names of a sample's lines for which f holds.
func (s sample) keep(f func(line int) bool) string {
	var names []string
	for i, n := range s.names {
		if n != "" && f(i) {
			names = append(names, n)
		}
	}
	return join(names)
}

func TestCutAtEveryOffset(t *testing.T) {
	s := newSample(t, 4)
	for cut := range len(s.bytes) + 1 {
		store := &journaltest.Store{Files: map[string][]byte{"m.journal": s.bytes[:cut:cut]}}
		want := s.keep(func(i int) bool { return s.ends[i] <= cut })
		names, _ := sessions(t, store.FS().(fstest.MapFS))
		if join(names) != want {
			t.Fatalf("cut at %d: read %q, want %q", cut, names, want)
		}
		appendOne(t, store, drill(9))
		names, problems := sessions(t, store.FS().(fstest.MapFS))
		if join(names) != join([]string{want, "d9"}) || len(problems) > 0 {
			t.Fatalf("cut at %d and appended: read %q and %v, want %q d9", cut, names, problems, want)
		}
		checkTorn(t, s, cut, store)
	}
}

// checkTorn sees whether the bytes of the line that was cut are kept aside.
func checkTorn(t *testing.T, s sample, cut int, store *journaltest.Store) {
	t.Helper()
	begin := 0
	for _, end := range s.ends {
		if end <= cut {
			begin = end
		}
	}
	var torn []byte
	for name, b := range store.Files {
		if strings.HasSuffix(name, ".torn") {
			if name != "m.20260301T180900Z.torn" {
				t.Errorf("a torn line is kept in %s", name)
			}
			torn = b
		}
	}
	if !bytes.Equal(torn, s.bytes[begin:cut]) {
		t.Fatalf("cut at %d: kept aside %q, want %q", cut, torn, s.bytes[begin:cut])
	}
}

// Every bit in turn. A flipped line end costs the two lines that it parted.
func TestFlipEveryBit(t *testing.T) {
	s := newSample(t, 3)
	for at := range s.bytes {
		for bit := range 8 {
			if testing.Short() && (at+bit)%4 > 0 {
				continue
			}
			flipAndCheck(t, s, at, 1<<bit)
		}
	}
}

// Every byte turned into every other one that means something to a reader.
func TestReplaceEveryByte(t *testing.T) {
	s := newSample(t, 2)
	for at := range s.bytes {
		for _, c := range []byte{0, '\n', ' ', '"', '\\', 0xff, '0', '}'} {
			flipAndCheck(t, s, at, s.bytes[at]^c)
		}
	}
}

func flipAndCheck(t *testing.T, s sample, at int, mask byte) {
	t.Helper()
	if mask == 0 {
		return
	}
	damaged := bytes.Clone(s.bytes)
	damaged[at] ^= mask
	begin := func(i int) int {
		if i == 0 {
			return 0
		}
		return s.ends[i-1]
	}
	want := s.keep(func(i int) bool {
		// at lies in this line, or is the end of the one before
		return !(begin(i) <= at && at < s.ends[i]) && !(i > 0 && s.ends[i-1]-1 == at)
	})
	store := &journaltest.Store{Files: map[string][]byte{"m.journal": damaged}}
	names, problems := sessions(t, store.FS().(fstest.MapFS))
	if join(names) != want || len(problems) == 0 {
		t.Fatalf("byte %d ^ %02x: read %q and %v, want %q", at, mask, names, problems, want)
	}
	if report, err := journal.Verify(store.FS()); err != nil || report.Good() {
		t.Fatalf("byte %d ^ %02x: verify finds nothing: %v %+v", at, mask, err, report)
	}
	appendOne(t, store, drill(9))
	if names, _ := sessions(t, store.FS().(fstest.MapFS)); join(names) != join([]string{want, "d9"}) {
		t.Fatalf("byte %d ^ %02x and appended: read %q, want %q d9", at, mask, names, want)
	}
	if kept := keptBytes(store); len(kept) < len(damaged) {
		t.Fatalf("byte %d ^ %02x: bytes were lost", at, mask)
	}
}

// keptBytes joins all that is in the journal and beside it.
func keptBytes(s *journaltest.Store) (all []byte) {
	for _, b := range s.Files {
		all = append(all, b...)
	}
	return all
}

func TestBadLinesAreToldByNumber(t *testing.T) {
	s := newSample(t, 3)
	damaged := bytes.Clone(s.bytes)
	damaged[s.ends[2]+20] ^= 1
	damaged = append(damaged, "1234"...)
	_, problems := sessions(t, fstest.MapFS{"m.journal": {Data: damaged}})
	if len(problems) != 2 {
		t.Fatalf("problems: %v", problems)
	}
	if p := problems[0]; p.Line != 4 || p.Offset != int64(s.ends[2]) || p.Kind != journal.Bad || p.File != "m.journal" {
		t.Errorf("the bad line is told as %+v", p)
	}
	if p := problems[1]; p.Line != 6 || p.Offset != int64(len(s.bytes)) || p.Kind != journal.Torn {
		t.Errorf("the torn line is told as %+v", p)
	}
}

func TestLongLinesAndRubbish(t *testing.T) {
	s := newSample(t, 2)
	long := append(bytes.Repeat([]byte{0}, 5<<20), '\n')
	many := bytes.Repeat([]byte("rubbish\n"), 3000)
	data := append(append(append(bytes.Clone(s.bytes[:s.ends[2]]), long...), many...), s.bytes[s.ends[2]:]...)
	names, problems := sessions(t, fstest.MapFS{"m.journal": {Data: data}})
	if join(names) != "d0 d1" {
		t.Errorf("read %q", names)
	}
	if n := len(problems); n != 1001 || !strings.Contains(problems[1000].Reason, "2001 more") {
		t.Errorf("%d problems, the last %v", n, problems[n-1])
	}
	if p := problems[0]; p.Line != 4 || !strings.Contains(p.Reason, "longer than") {
		t.Errorf("the long line is told as %v", p)
	}
}

// FuzzFile reads whatever may be in a file, appends to it, and reads it again.
func FuzzFile(f *testing.F) {
	for _, r := range []journal.Record{journal.Header{At: start(), Version: 1}, drill(1), journal.Strike{At: start(), Session: "d1"}} {
		line, err := journal.Encode(r)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(append(line, line...))
		f.Add(line[:len(line)-3])
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		store := &journaltest.Store{Files: map[string][]byte{"m.journal": data}}
		before, _ := sessions(t, store.FS().(fstest.MapFS))
		j, err := journal.Open(store, "m")
		if err == nil {
			err = j.Append(drill(7))
		}
		if err != nil {
			t.Skip(err) // of a newer version
		}
		after, _ := sessions(t, store.FS().(fstest.MapFS))
		if len(after) > len(before)+1 || len(after) < len(before) {
			t.Errorf("before %q, after %q", before, after)
		}
	})
}
