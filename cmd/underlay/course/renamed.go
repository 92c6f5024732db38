package course

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"time"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// use is when a board of some name was practised on.
type use struct {
	From  time.Time `json:"from"`
	Until time.Time `json:"until"`
	First string    `json:"first"` // its hash then
	Last  string    `json:"last"`
	Turns int       `json:"turns"` // how often the hash was another than before
}

func (u use) with(d journal.Drill) use {
	if u.First == "" {
		u.From, u.First = d.At, d.Hash
	}
	if u.Last != d.Hash {
		u.Turns++
	}
	u.Until, u.Last = d.At, d.Hash
	return u
}

// Renamed is a board that is called otherwise than when it was practised on.
type Renamed struct{ Was, Now string }

// Renamed lists the names that boards had before, in order.
func (c *Course) Renamed() []Renamed {
	var out []Renamed
	for _, name := range slices.Sorted(maps.Keys(c.past.Names)) {
		if i, ok := c.past.Called[name]; ok {
			out = append(out, Renamed{name, c.config.Boards[i].Name})
		}
	}
	return out
}

// NewNames lists those of Renamed that were not practised on since.
func (c *Course) NewNames() []Renamed {
	return slices.DeleteFunc(c.Renamed(), func(r Renamed) bool { _, met := c.past.Names[r.Now]; return met })
}

// Words tells the new name in one line, and how to undo it.
func (r Renamed) Words() string {
	return fmt.Sprintf("%q has the strokes that %q had and goes on with its history; give it the old name again to undo that.", r.Now, r.Was)
}

// family is a board of today with what it was before.
type family struct {
	began time.Time      // practised on under the earliest of its names; zero: never
	first *board.Board   // as it was then
	all   []*board.Board // in all its states
}

// callings finds out which names of the journal boards of today had before, by
// index. A name was one of theirs if the board was called otherwise with its
// strokes as they were, and has not been practised on under the old name since;
// or if all that was practised on under it are states that the board had, as
// when it gets its old name back. Where two boards answer to that, none does.
func (c *Course) callings(boards map[string]journal.Board) map[string]int {
	var foreign []string // the latest first
	for _, name := range slices.Sorted(maps.Keys(c.past.Names)) {
		if c.named(name) < 0 {
			foreign = append(foreign, name)
		}
	}
	if len(foreign) == 0 {
		return nil
	}
	slices.SortStableFunc(foreign, func(a, b string) int { return c.past.Names[b].Until.Compare(c.past.Names[a].Until) })
	states := statesOf(boards)
	families := c.families(states)
	called := map[string]int{}
	for _, name := range foreign {
		u := c.past.Names[name]
		all := states.named(name)
		var of []int
		for i, f := range families {
			if f.tookOver(u, states.of(name, u.Last)) || f.had(all) {
				of = append(of, i)
			}
		}
		if len(of) == 1 {
			called[name] = of[0]
			families[of[0]].join(u, states.of(name, u.First), all)
		}
	}
	return called
}

func (c *Course) families(states states) []family {
	out := make([]family, len(c.config.Boards))
	for i, b := range c.config.Boards {
		u := c.past.Names[b.Name]
		out[i] = family{u.From, cmp.Or(states.of(b.Name, u.First), b), append(states.named(b.Name), b)}
	}
	return out
}

func (f *family) tookOver(u use, last *board.Board) bool {
	return last != nil && alike(last, f.first) && (f.began.IsZero() || !u.Until.After(f.began))
}

func (f *family) had(all []*board.Board) bool {
	for _, b := range all {
		if !slices.ContainsFunc(f.all, func(own *board.Board) bool { return alike(b, own) }) {
			return false
		}
	}
	return len(all) > 0
}

func (f *family) join(u use, first *board.Board, all []*board.Board) {
	f.all = append(f.all, all...)
	if first != nil && (f.began.IsZero() || u.From.Before(f.began)) {
		f.began, f.first = u.From, first
	}
}

// alike tells whether two boards have the same keys for the same fingers, and
// every stroke in the same place.
func alike(a, b *board.Board) bool {
	c := board.Compare(a, b)
	return c.SameShape && a.OSLayout == b.OSLayout && len(c.Moved)+len(c.New)+len(c.Gone) == 0
}

// states are the boards of a journal that can be read, by name and hash.
type states map[string]map[string]*board.Board

func statesOf(boards map[string]journal.Board) states {
	out := states{}
	for hash, r := range boards {
		b, _ := board.Read(r.Name, []byte(r.Source))
		if b == nil {
			continue
		}
		if out[r.Name] == nil {
			out[r.Name] = map[string]*board.Board{}
		}
		out[r.Name][hash] = b
	}
	return out
}

func (s states) of(name, hash string) *board.Board { return s[name][hash] }

func (s states) named(name string) []*board.Board {
	var out []*board.Board
	for _, hash := range slices.Sorted(maps.Keys(s[name])) {
		out = append(out, s[name][hash])
	}
	return out
}
