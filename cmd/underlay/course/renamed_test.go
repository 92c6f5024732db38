package course

import (
	"slices"
	"strings"
	"testing"
	"time"

	"underlay/drills/board"
	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// named is a board with another name in its file.
func named(t testing.TB, b *board.Board, name string) *board.Board {
	t.Helper()
	src := strings.Replace(string(b.Source()), `"`+b.Name+`"`, `"`+name+`"`, 1)
	n, found := board.Read(name+".toml", []byte(src))
	if n == nil || n.Name != name || n.Hash() == b.Hash() {
		t.Fatalf("no board %s: %v", name, found)
	}
	return n
}

// life is a board's, told as a journal has it: each day practised on a state.
type life struct {
	t     *testing.T
	store journaltest.Store
	cache journaltest.Store
	day   int
}

// with is a course with b being learned; the cache is written whenever it can be.
func (l *life) with(b *board.Board) *Course {
	c := embedded(l.t, func(c *Config) {
		c.Boards[0], c.Past = b, Past{Journal: l.store.FS(), Cache: journal.Cache{Store: &l.cache, Name: "skill"}}
	})
	if c.past.fresh > 0 {
		c.past.fresh = fewDrills
		if err := c.Keep(); err != nil {
			l.t.Fatal(err)
		}
	}
	plain := embedded(l.t, func(c *Config) { c.Boards[0], c.Past.Journal = b, l.store.FS() })
	same(l.t, plain, c)
	if !slices.Equal(plain.Renamed(), c.Renamed()) {
		l.t.Errorf("without a cache %v, with it %v", plain.Renamed(), c.Renamed())
	}
	return c
}

func (l *life) practise(b *board.Board) {
	c := l.with(b)
	kept(l.t, &l.store, c.Boards(), practised(l.t, c, start.AddDate(0, 0, l.day), 40))
	l.day++
}

// elsewhere practises on another machine, which has a cache of its own.
func (l *life) elsewhere(b *board.Board) {
	c := embedded(l.t, func(c *Config) { c.Boards[0], c.Past.Journal = b, l.store.FS() })
	kept(l.t, &l.store, c.Boards(), practised(l.t, c, start.AddDate(0, 0, l.day), 40))
	l.day++
}

// without is split-38 with one symbol fewer, so that all its strokes are known.
func without(t testing.TB, b *board.Board) *board.Board {
	t.Helper()
	n, found := board.Read("fewer.toml", []byte(strings.Replace(string(b.Source()), `)    "`, `)    --`, 1)))
	if n == nil || n.Hash() == b.Hash() {
		t.Fatal(found)
	}
	return n
}

// triesOfFirst is how often strokes of the board being learned were tried, those that
// it had before included.
func triesOfFirst(c *Course) (n int) {
	for id, st := range c.strokes.all {
		if st.Board == 0 {
			n += c.scheduler.Level(id, start.AddDate(0, 0, 30)).Tries
		}
	}
	return n
}

// A board that is called otherwise now goes on with its history, through
// changes before and after, and gives it back with the old name.
func TestBoardRenamed(t *testing.T) {
	old, err := board.Load("split-38")
	if err != nil {
		t.Fatal(err)
	}
	l := &life{t: t}
	l.practise(old)
	moved := changed(t, old)
	l.practise(moved)
	before := triesOfFirst(l.with(moved))

	mine := named(t, moved, "mine")
	c := l.with(mine)
	if got := triesOfFirst(c); got != before || before == 0 {
		t.Errorf("%d tries under a new name, %d under the old one", got, before)
	}
	if got := c.NewNames(); !slices.Equal(got, []Renamed{{"split-38", "mine"}}) {
		t.Errorf("told: %v", got)
	}
	l.practise(mine)
	later := named(t, old, "mine")
	c = l.with(later) // changed after it got its name
	if got := triesOfFirst(c); got <= before {
		t.Errorf("%d tries after practice and a change, %d before", got, before)
	}
	if len(c.NewNames()) != 0 || len(c.Renamed()) != 1 {
		t.Errorf("told again %v, known %v", c.NewNames(), c.Renamed())
	}
	all := triesOfFirst(c)
	if got := triesOfFirst(l.with(named(t, mine, "yours"))); got != all {
		t.Errorf("%d tries under a third name, not %d", got, all)
	}
	if got := triesOfFirst(l.with(moved)); got != all {
		t.Errorf("%d tries under the old name again, not %d", got, all)
	}
}

// Neither a board with other strokes nor a copy whose original was changed and used since
// takes a history over.
func TestBoardsThatAreNotTheSame(t *testing.T) {
	old, err := board.Load("split-38")
	if err != nil {
		t.Fatal(err)
	}
	l := &life{t: t}
	l.practise(old)
	if c := l.with(named(t, changed(t, old), "other")); triesOfFirst(c) != 0 || len(c.Renamed()) != 0 {
		t.Errorf("another board has %d tries, and was %v", triesOfFirst(c), c.Renamed())
	}
	copied := named(t, old, "copy")
	l.practise(copied)
	own := triesOfFirst(l.with(copied)) // and the cache has it so
	l.elsewhere(without(t, old))
	l.elsewhere(old)
	c := l.with(copied)
	if len(c.Renamed()) != 0 {
		t.Errorf("a copy was %v", c.Renamed())
	}
	if got := triesOfFirst(c); got == 0 || got >= own {
		t.Errorf("the copy has %d tries, and had %d with its original's", got, own)
	}
}

// The content alone says enough, even where the journal has no file of the board.
func TestBoardKnownByItsHash(t *testing.T) {
	before := embedded(t, nil)
	var store journaltest.Store
	all := practised(t, before, start, 20)
	for i := range all {
		all[i].Board = "what it was called"
	}
	kept(t, &store, before.Boards(), all)
	same(t, before, embedded(t, func(c *Config) { c.Past.Journal = store.FS() }))
	if got := (use{}).with(journal.Drill{At: start, Hash: "a"}).with(journal.Drill{At: start.Add(time.Hour), Hash: "b"}); got.First != "a" || got.Last != "b" || got.Turns != 2 {
		t.Errorf("used %+v", got)
	}
}
