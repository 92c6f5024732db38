package course

import (
	"math"
	"strings"
	"testing"
	"time"

	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

var start = time.Date(2026, 3, 2, 18, 30, 0, 0, time.FixedZone("", 3600))

// practised types n tasks of a course with invented latencies and a slip now
// and then; it returns the drills and lets the course learn from them.
func practised(t testing.TB, c *Course, at time.Time, n int) []journal.Drill {
	t.Helper()
	var out []journal.Drill
	c.Plan(at, 20*time.Minute)
	for i := range n {
		task, ok := c.Next(at, 20*time.Minute)
		if !ok {
			t.Fatalf("no task after %d", i)
		}
		b := c.config.Boards[task.Board]
		d := journal.Drill{At: at, Session: at.Format("s0102"), Board: b.Name, Hash: b.Hash(), Kind: string(task.Drill.Kind)}
		for j, k := range task.Drill.Keys {
			key := journal.Key{Symbol: string(k.Symbol), Stroke: k.Stroke.String(), MS: 300 + 7.777*float64((i*31+j*17)%97)}
			switch {
			case j == 0:
				key.Flags |= journal.First
			case (i+j)%13 == 0:
				key.Got, key.Slip, key.Lost = "x", "other", 450.123
			case (i+j)%11 == 0:
				key.Flags |= journal.Helped
			}
			d.Keys = append(d.Keys, key)
		}
		d.Unordered = i%5 == 0
		out = append(out, d)
		c.Observe(d)
		at = at.Add(20 * time.Second)
	}
	return out
}

// kept writes drills to a journal in memory.
func kept(t testing.TB, s *journaltest.Store, boards []*board.Board, all ...[]journal.Drill) {
	t.Helper()
	j, err := journal.Open(s, "invented")
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	for _, drills := range all {
		for _, d := range drills {
			for _, b := range boards {
				if b.Hash() == d.Hash {
					add(t, j, journal.Board{At: d.At, Name: b.Name, Hash: b.Hash(), Source: string(b.Source())})
				}
			}
			add(t, j, d)
		}
	}
}

func add(t testing.TB, j *journal.Journal, r journal.Record) {
	t.Helper()
	if err := j.Append(r); err != nil {
		t.Fatal(err)
	}
}

// same fails unless two courses know the same of the strokes that they share.
func same(t *testing.T, a, b *Course) {
	t.Helper()
	at := start.AddDate(0, 0, 20)
	for id, st := range a.strokes.all {
		other, ok := b.strokes.spelled[spelled{st.Board, string(st.Symbol), st.Stroke.String()}]
		if !ok {
			continue
		}
		l, m := a.scheduler.Level(id, at), b.scheduler.Level(other, at)
		if l.Tries != m.Tries || math.Abs(math.Log(l.MS/m.MS)) > 1e-9 || math.Abs(l.Err-m.Err) > 1e-9 || !l.Last.Equal(m.Last) {
			t.Fatalf("%s: %+v and %+v", st.Symbol, l, m)
		}
	}
	if a.past.Last.Strokes != b.past.Last.Strokes || math.Abs(a.past.Days[start.Format(time.DateOnly)]-b.past.Days[start.Format(time.DateOnly)]) > 1e-6 {
		t.Errorf("remembered %+v and %+v", a.past, b.past)
	}
}

// What was learned while practising is what the journal gives back.
func TestRebuiltIsAsObserved(t *testing.T) {
	online := embedded(t, nil)
	var store journaltest.Store
	day1, day2 := practised(t, online, start, 60), practised(t, online, start.AddDate(0, 0, 1), 40)
	kept(t, &store, online.Boards(), day1, day2)
	rebuilt := embedded(t, func(c *Config) { c.Past.Journal = store.FS() })
	same(t, online, rebuilt)
	if rebuilt.past.Last.Strokes == 0 {
		t.Error("nothing is remembered of the last sitting")
	}
	if got := rebuilt.Past(start.AddDate(0, 0, 1)); got.Days != 2 || !got.Ever || got.Today <= 0 || got.Week <= got.Today {
		t.Errorf("past %+v", got)
	}
}

// A cache that lags behind the journal, and one that is damaged, change nothing.
func TestCacheGoesOnFromWhereItLeftOff(t *testing.T) {
	online := embedded(t, nil)
	var store, caches journaltest.Store
	cache := journal.Cache{Store: &caches, Name: "skill"}
	day1, day2 := practised(t, online, start, 60), practised(t, online, start.AddDate(0, 0, 1), 40)
	kept(t, &store, online.Boards(), day1)
	use := func(c *Config) { c.Past = Past{Journal: store.FS(), Cache: cache} }
	first := embedded(t, use)
	first.past.fresh = fewDrills
	if err := first.Keep(); err != nil {
		t.Fatal(err)
	}
	kept(t, &store, online.Boards(), day2)
	second := embedded(t, use)
	same(t, online, second)
	if len(caches.Files) != 1 {
		t.Fatalf("caches %v", caches.Files)
	}
	for name, data := range caches.Files {
		caches.Files[name] = append(data[:len(data)/2], data[len(data)/2+1:]...)
	}
	same(t, online, embedded(t, use))
}

// What another build of the program derived is derived again.
func TestCacheOfAnotherBuild(t *testing.T) {
	online := embedded(t, nil)
	var store, caches journaltest.Store
	kept(t, &store, online.Boards(), practised(t, online, start, 60))
	built := func(name string) *Course {
		return embedded(t, func(c *Config) {
			c.Past = Past{Journal: store.FS(), Cache: journal.Cache{Store: &caches, Name: "skill"}, Build: name}
		})
	}
	first := built("one")
	all := first.past.fresh
	first.past.fresh = fewDrills
	if err := first.Keep(); err != nil || all == 0 {
		t.Fatalf("%d drills, %v", all, err)
	}
	if same := built("one").past.fresh; same != 0 {
		t.Errorf("the same build read %d drills again", same)
	}
	if other := built("two").past.fresh; other != all {
		t.Errorf("another build read %d drills, want all %d", other, all)
	}
}

// changed is split-38 with two keys of a layer swapped.
func changed(t testing.TB, b *board.Board) *board.Board {
	t.Helper()
	src := strings.Replace(string(b.Source()), `(    )    "`, `)    (    "`, 1)
	n, found := board.Read("changed.toml", []byte(src))
	if n == nil {
		t.Fatal(found)
	}
	return n
}

func TestBoardChanges(t *testing.T) {
	before := embedded(t, nil)
	old := before.Boards()[0]
	var store journaltest.Store
	kept(t, &store, before.Boards(), practised(t, before, start, 80))
	now := changed(t, old)
	use := func(c *Config) { c.Boards[0], c.Past.Journal = now, store.FS() }
	after := embedded(t, use)

	ch := after.Changed()
	if len(ch) != 1 || len(ch[0].Moved) != 2 || len(ch[0].Gone) != 0 || ch[0].Unreadable || ch[0].Stayed < 90 || ch[0].Stayed > 200 {
		t.Fatalf("changed: %+v", ch)
	}
	if w := ch[0].Words(); !strings.Contains(w, "2 moved (( ))") && !strings.Contains(w, "2 moved () ()") {
		t.Errorf("told as %q", w)
	}
	same(t, before, after) // what stayed, and what is retired, keeps its skill
	id, _ := after.ID(0, "(")
	was := after.strokes.features[id].Was
	if was < 0 || !after.strokes.all[was].Retired || after.strokes.all[was].Symbol != "(" {
		t.Errorf("( replaced %d", was)
	}
	if st, ok := old.Drilled("("); !ok || after.strokes.features[was].Layer != before.strokes.features[idOf(t, before, "(")].Layer || !after.strokes.all[was].Stroke.Equal(st) {
		t.Error("the retired stroke is not what it was")
	}
	for _, e := range exercises(after, 200) {
		if after.strokes.all[e].Retired {
			t.Fatal("a retired stroke is asked for")
		}
	}

	// After practice on the new board nothing is told any more.
	kept(t, &store, after.Boards(), practised(t, after, start.AddDate(0, 0, 1), 5))
	if ch := embedded(t, use).Changed(); len(ch) != 0 {
		t.Errorf("told again: %+v", ch)
	}
	// Putting the file back restores what was.
	restored := embedded(t, func(c *Config) { c.Past.Journal = store.FS() })
	if got := restored.Changed(); len(got) != 1 {
		t.Errorf("the change back is not told: %+v", got)
	}
	l, m := before.scheduler.Level(idOf(t, before, "("), start), restored.scheduler.Level(idOf(t, restored, "("), start)
	if l.Tries == 0 || m.Tries != l.Tries {
		t.Errorf("( has %d tries, had %d", m.Tries, l.Tries)
	}
}

func idOf(t testing.TB, c *Course, s board.Symbol) int {
	t.Helper()
	id, ok := c.ID(0, s)
	if !ok {
		t.Fatalf("no stroke for %s", s)
	}
	return id
}

func exercises(c *Course, n int) []int {
	var out []int
	c.scheduler.Begin(start, time.Hour)
	for range n {
		var e scheduler.Exercise
		e, _ = c.scheduler.Next(start, time.Hour)
		out = append(out, e.Items...)
	}
	return out
}

// What is drilled on demand alone, as chords that the work does not have, is
// learned from and remembered like the rest, and never planned.
func TestWhatIsNotPlannedIsRemembered(t *testing.T) {
	online := embedded(t, func(c *Config) { c.Kind = drills.Chord })
	var store journaltest.Store
	kept(t, &store, online.Boards(), practised(t, online, start, 40))
	rebuilt := embedded(t, func(c *Config) { c.Past.Journal = store.FS() })
	same(t, online, rebuilt)
	if n := len(rebuilt.past.Moved); n > 0 {
		t.Errorf("%d strokes count as moved", n)
	}
	id := idOf(t, rebuilt, "Alt+z")
	if got := rebuilt.Standing(0, "Alt+z", start); got.Level.Tries == 0 || got.State == scheduler.Unmet {
		t.Errorf("Alt+z stands at %+v", got)
	}
	for _, e := range exercises(rebuilt, 300) {
		if e == id {
			t.Fatal("Alt+z is planned")
		}
	}
}
