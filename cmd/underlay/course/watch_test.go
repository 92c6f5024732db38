package course

import (
	"strconv"
	"testing"
	"time"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// counter counts the drills that it is told of, and the tries that the model
// had learned from before each.
type counter struct {
	course *Course
	drills int
	told   []int // tries before each drill, of this run
}

func (c *counter) Start(k *Course) { *c = counter{course: k} }

func (c *counter) Drill(d journal.Drill) {
	id, _ := c.course.Find(0, d.Keys[0].Symbol, d.Keys[0].Stroke)
	c.told = append(c.told, c.course.Scheduler().Level(id, d.At).Tries)
	c.drills++
}

func (c *counter) MarshalBinary() ([]byte, error) { return []byte(strconv.Itoa(c.drills)), nil }
func (c *counter) UnmarshalBinary(b []byte) (err error) {
	c.drills, err = strconv.Atoi(string(b))
	return err
}

// practise writes a journal of n drills of one stroke, the first on day from.
func practise(t *testing.T, s journal.Store, from, n int) {
	t.Helper()
	c := embedded(t, nil)
	b := c.Boards()[0]
	id, _ := c.ID(0, "(")
	j, err := journal.Open(s, "m")
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	at := time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)
	if err := j.Append(journal.Board{At: at, Name: b.Name, Hash: b.Hash(), Source: string(b.Source())}); err != nil {
		t.Fatal(err)
	}
	for day := from; day < from+n; day++ {
		d := journal.Drill{At: at.AddDate(0, 0, day), Session: strconv.Itoa(day), Board: b.Name, Hash: b.Hash(), Kind: "position",
			Keys: []journal.Key{{Symbol: "(", Stroke: c.Stroke(id).Stroke.String(), MS: 500}}}
		if err := j.Append(d); err != nil {
			t.Fatal(err)
		}
	}
}

// A watch is told of every drill before the model learns from it; with the
// cache, of new ones alone.
func TestWatchIsToldOnce(t *testing.T) {
	store, cache := &journaltest.Store{}, &journaltest.Store{}
	practise(t, store, 0, 3)
	run := func() *counter {
		w := &counter{}
		c := embedded(t, func(c *Config) {
			c.Watch, c.Idle = w, true
			c.Past = Past{Journal: store.FS(), Cache: journal.Cache{Store: cache, Name: "progress"}}
		})
		if c.past.fresh > 0 {
			c.past.fresh = fewDrills // as if it were worth keeping
		}
		if err := c.Keep(); err != nil {
			t.Fatal(err)
		}
		return w
	}
	if w := run(); w.drills != 3 || len(w.told) != 3 || w.told[0] != 0 || w.told[2] != 2 {
		t.Errorf("first run: %d drills, tries before each %v", w.drills, w.told)
	}
	if w := run(); w.drills != 3 || len(w.told) != 0 {
		t.Errorf("from the cache: %d drills, %d told again", w.drills, len(w.told))
	}
	practise(t, store, 3, 1)
	if w := run(); w.drills != 4 || len(w.told) != 1 {
		t.Errorf("after one more: %d drills, %d told", w.drills, len(w.told))
	}
}
