package journal_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// derive returns the sessions of the history in s, one a line, through a cache
// of them, and how many were read from the journal.
func derive(t interface{ Fatal(...any) }, s, cache *journaltest.Store, key string) (all string, read int) {
	h, err := journal.Read(s.FS())
	if err != nil {
		t.Fatal(err)
	}
	c := journal.Cache{Store: cache, Name: "derived"}
	data, from := c.Load(key, h)
	out := bytes.NewBuffer(bytes.Clone(data))
	for d := range h.Drills(from) {
		fmt.Fprintln(out, d.At, d.Session)
		read++
	}
	if h.Err() != nil {
		t.Fatal(h.Err())
	}
	if err := c.Save(key, h.Position(), out.Bytes()); err != nil {
		t.Fatal(err)
	}
	return out.String(), read
}

func TestCacheGoesOnWhereItWas(t *testing.T) {
	s, cache := &journaltest.Store{}, &journaltest.Store{}
	j := open(t, s)
	for i := range 5 {
		must(t, j.Append(drill(i)))
		all, read := derive(t, s, cache, "k")
		if read != 1 || strings.Count(all, "\n") != i+1 {
			t.Errorf("after drill %d: %d were read and there are\n%s", i, read, all)
		}
	}
	if _, read := derive(t, s, cache, "k"); read != 0 {
		t.Errorf("with nothing new %d were read", read)
	}
}

// What is not fit is not used, and the result is the same.
func TestCacheThatDoesNotFit(t *testing.T) {
	a, b := fileOf(t, "a", drill(0), drill(2), drill(4)), fileOf(t, "b", drill(1), drill(3))
	more := func(file []byte, r journal.Record) []byte {
		line, err := journal.Encode(r)
		must(t, err)
		return append(bytes.Clone(file), line...)
	}
	for name, c := range map[string]struct {
		change func(s, cache *journaltest.Store)
		read   int
	}{
		"nothing":          {func(s, cache *journaltest.Store) {}, 0},
		"later drill":      {func(s, cache *journaltest.Store) { s.Files["b.journal"] = more(b, drill(9)) }, 1},
		"two later drills": {func(s, cache *journaltest.Store) { s.Files["b.journal"] = more(more(b, drill(9)), drill(7)) }, 2},
		"new machine":      {func(s, cache *journaltest.Store) { s.Files["c.journal"] = fileOf(t, "c", drill(9)) }, 1},
		"torn line":        {func(s, cache *journaltest.Store) { s.Files["a.journal"] = append(bytes.Clone(a), "half"...) }, 0},
		// The clock of a machine went back: its own order holds.
		"own clock back": {func(s, cache *journaltest.Store) {
			s.Files["a.journal"] = more(a, func() journal.Drill { d := drill(3); d.At = d.At.Add(1e9); return d }())
		}, 1},
		"drill from before": {func(s, cache *journaltest.Store) {
			s.Files["b.journal"] = more(b, func() journal.Drill { d := drill(2); d.Session = "new"; return d }())
		}, 6},
		"strike": {func(s, cache *journaltest.Store) {
			s.Files["b.journal"] = more(b, journal.Strike{At: drill(9).At, Session: "d0"})
		}, 4},
		"copy":      {func(s, cache *journaltest.Store) { s.Files["c.journal"] = a }, 5},
		"joined":    {func(s, cache *journaltest.Store) { s.Files["b.journal"] = append(bytes.Clone(b), a...) }, 5},
		"file gone": {func(s, cache *journaltest.Store) { delete(s.Files, "b.journal") }, 3},
		"file cut":  {func(s, cache *journaltest.Store) { s.Files["b.journal"] = b[:len(b)-50] }, 4},
		"file changed": {func(s, cache *journaltest.Store) {
			s.Files["b.journal"] = bytes.Replace(b, []byte("d3"), []byte("dX"), 1)
		}, 4},
		"cache deleted": {func(s, cache *journaltest.Store) { delete(cache.Files, "derived") }, 5},
		"cache cut": {func(s, cache *journaltest.Store) {
			cache.Files["derived"] = cache.Files["derived"][:len(cache.Files["derived"])-1]
		}, 5},
		"cache flipped":      {func(s, cache *journaltest.Store) { cache.Files["derived"][len(cache.Files["derived"])-2] ^= 1 }, 5},
		"cache head flipped": {func(s, cache *journaltest.Store) { cache.Files["derived"][30] ^= 1 }, 5},
		"cache of rubbish":   {func(s, cache *journaltest.Store) { cache.Files["derived"] = []byte("rubbish") }, 5},
		"cache empty":        {func(s, cache *journaltest.Store) { cache.Files["derived"] = nil }, 5},
	} {
		s, cache := &journaltest.Store{Files: map[string][]byte{"a.journal": a, "b.journal": b}}, &journaltest.Store{}
		derive(t, s, cache, "k")
		c.change(s, cache)
		want, _ := derive(t, s, &journaltest.Store{}, "k")
		got, read := derive(t, s, cache, "k")
		if got != want {
			t.Errorf("%s: with the cache\n%swithout\n%s", name, got, want)
		}
		if read != c.read {
			t.Errorf("%s: %d drills were read, want %d", name, read, c.read)
		}
	}
}

func TestCacheOfAnotherKey(t *testing.T) {
	s, cache := &journaltest.Store{Files: map[string][]byte{"a.journal": fileOf(t, "a", drill(0))}}, &journaltest.Store{}
	derive(t, s, cache, "k")
	if _, read := derive(t, s, cache, "other"); read != 1 {
		t.Error("data of another key were used")
	}
}

// Somebody has put a copy of the only file at its end.
func TestCacheOfAFileThatWasDoubled(t *testing.T) {
	a := fileOf(t, "a", drill(0), drill(1))
	s, cache := &journaltest.Store{Files: map[string][]byte{"a.journal": a}}, &journaltest.Store{}
	once, _ := derive(t, s, cache, "k")
	s.Files["a.journal"] = append(bytes.Clone(a), a...)
	if twice, _ := derive(t, s, cache, "k"); twice != once {
		t.Errorf("derived\n%s", twice)
	}
}

// A struck session stays struck, also for what is still appended to it.
func TestCacheKnowsWhatIsStruck(t *testing.T) {
	s, cache := &journaltest.Store{}, &journaltest.Store{}
	j := open(t, s)
	must(t, j.Append(drill(0)))
	must(t, j.Append(journal.Strike{At: drill(1).At, Session: "d0"}))
	derive(t, s, cache, "k")
	d := drill(2)
	d.Session = "d0"
	must(t, j.Append(d))
	if got, _ := derive(t, s, cache, "k"); got != "" {
		t.Errorf("derived %s", got)
	}
}

func TestUnfinishedReadingIsNotSaved(t *testing.T) {
	h, err := journal.Read(dirOf(map[string][]byte{"a.journal": fileOf(t, "a", drill(0), drill(1))}))
	must(t, err)
	for range h.Drills(journal.Position{}) {
		break
	}
	c := journal.Cache{Store: &journaltest.Store{}, Name: "derived"}
	if err := c.Save("k", h.Position(), nil); err == nil {
		t.Error("half of the history was saved as all of it")
	}
}

// Machines write in turn, files come late, are copied and vanish: the cached
// result is the one derived anew, at every step.
func TestCacheIsEqualToReadingAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shared, far, cache := &journaltest.Store{Files: map[string][]byte{}}, &journaltest.Store{}, &journaltest.Store{}
		minute := 0
		for step := range rapid.IntRange(1, 12).Draw(t, "steps") {
			minute += rapid.IntRange(-3, 9).Draw(t, "minutes")
			d := drill(minute)
			d.Session, d.Keys[1].MS = fmt.Sprint(step/3), float64(200+step) // no two drills are the same
			var r journal.Record = d
			if rapid.IntRange(0, 6).Draw(t, "strike") == 0 {
				r = journal.Strike{At: d.At, Session: fmt.Sprint(rapid.IntRange(0, 3).Draw(t, "which")), Undo: rapid.Bool().Draw(t, "undo")}
			}
			to, machine := shared, "near"
			if rapid.Bool().Draw(t, "far") {
				to, machine = far, "far"
			}
			j, err := journal.Open(to, machine)
			if err != nil {
				t.Fatal(err)
			}
			if err := j.Append(r); err != nil {
				t.Fatal(err)
			}
			j.Close()
			switch rapid.IntRange(0, 5).Draw(t, "tool") {
			case 0, 1:
				shared.Files["far.journal"] = far.Files["far.journal"]
			case 2:
				shared.Files["copy.journal"] = shared.Files["near.journal"]
			case 3:
				delete(shared.Files, "copy.journal")
			}
			want, _ := derive(t, shared, &journaltest.Store{}, "k")
			if got, _ := derive(t, shared, cache, "k"); got != want {
				t.Fatalf("with the cache\n%swithout\n%s", got, want)
			}
		}
	})
}

// FuzzCache loads whatever may be in a cache's file: it is used only as it was saved.
func FuzzCache(f *testing.F) {
	s, cache := &journaltest.Store{Files: map[string][]byte{"a.journal": fileOf(f, "a", drill(0), drill(1))}}, &journaltest.Store{}
	derive(f, s, cache, "k")
	saved := cache.Files["derived"]
	f.Add(bytes.Clone(saved))
	f.Add(bytes.Replace(saved, []byte(`"size":`), []byte(`"size":-`), 1))
	f.Add([]byte("00000000 {}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := journal.Read(s.FS())
		must(t, err)
		c := journal.Cache{Store: &journaltest.Store{Files: map[string][]byte{"derived": data}}, Name: "derived"}
		if got, _ := c.Load("k", h); got != nil && !bytes.Equal(data, saved) {
			t.Errorf("used %q", data)
		}
	})
}
