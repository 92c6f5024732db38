package course

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"time"

	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// Past is where to read what was practised.
type Past struct {
	Journal fs.FS         // the directory of the journal; nil: nothing was practised
	Cache   journal.Cache // of what is derived from it; without a Store nothing is kept
	Build   string        // names the program: another one derives anew, for it may reckon otherwise
	// Progress is told now and then how many drills were read, when the cache
	// did not serve; may be nil.
	Progress func(drills int)
}

// past is what is remembered of the journal besides skill.
type past struct {
	Days  map[string]float64 `json:"days"`   // ms practised, by day as the place had it
	Hash  map[string]string  `json:"hashes"` // of each board by name, when it was last used
	Last  sitting            `json:"last"`
	Moved []change           `json:"moved,omitempty"` // strokes that boards had before
	Was   map[string]string  `json:"was,omitempty"`   // files of boards that have changed since, by name

	Names  map[string]use `json:"names"`            // when boards were practised on, by name
	Called map[string]int `json:"called,omitempty"` // names that boards had before: index of the board

	history *journal.History
	key     string
	at      journal.Position // all before it is in here
	fresh   int              // drills that the cache does not have
}

// sitting sums up the last session.
type sitting struct {
	Session string    `json:"session"`
	At      time.Time `json:"at"`
	Strokes int       `json:"strokes"`
	Slips   int       `json:"slips"`
}

// change is a stroke that a board no longer has or drills, with its features.
type change struct {
	Stroke   Stroke           `json:"stroke"`
	Features scheduler.Stroke `json:"features"`
	Last     time.Time        `json:"last"`
}

// recall reads the journal into the skill model.
func (c *Course) recall(p Past) error {
	c.past = newPast()
	c.newScheduler()
	if p.Journal == nil {
		return nil
	}
	h, err := journal.Read(p.Journal)
	if err != nil {
		return err
	}
	key := c.key()
	if c.fromCache(h, key) {
		return c.recalled(h, key)
	}
	if err := c.derive(h); err != nil {
		return err
	}
	return c.recalled(h, key)
}

// derive reads the whole journal, and anew where that shows names or strokes
// that boards had before.
func (c *Course) derive(h *journal.History) error {
	progress := c.config.Past.Progress
	c.forget()
	missing := c.replay(h, journal.Position{}, progress)
	boards, err := h.Boards()
	if err != nil {
		return err
	}
	called := c.callings(boards)
	if len(called) > 0 {
		c.forget()
		c.past.Called = called
		missing = c.replay(h, journal.Position{}, progress)
	}
	if len(missing) > 0 {
		c.forget()
		c.past.Called = called
		c.retire(missing, boards)
		c.replay(h, journal.Position{}, progress)
	}
	return nil
}

// fromCache goes on from where the cache left off, or tells that it did not
// serve.
func (c *Course) fromCache(h *journal.History, key string) bool {
	cache := c.config.Past.Cache
	if cache.Store == nil {
		return false
	}
	data, from := cache.Load(key, h)
	if data == nil || c.restore(data) != nil {
		return false
	}
	known := maps.Clone(c.past.Names)
	return len(c.replay(h, from, nil)) == 0 && !c.otherwiseNamed(known)
}

// otherwiseNamed tells whether a board was practised on since under a name that
// none has now, or in another state: either may say anew which names boards had.
func (c *Course) otherwiseNamed(known map[string]use) bool {
	for name, u := range c.past.Names {
		was := known[name]
		_, before := c.past.Called[name]
		current := slices.ContainsFunc(c.config.Boards, func(b *board.Board) bool { return b.Name == name && b.Hash() == u.Last })
		if !u.Until.Equal(was.Until) && !current && (before || u.Turns != was.Turns) {
			return true
		}
	}
	return false
}

// recalled keeps how far the journal was read, and what is to be told of it.
func (c *Course) recalled(h *journal.History, key string) error {
	p := c.past
	p.history, p.key, p.at = h, key, h.Position()
	for _, x := range h.Problems() {
		if x.Kind == journal.Newer {
			return fmt.Errorf("%w: %s:%d: %s", ErrNewer, x.File, x.Line, x.Reason)
		}
	}
	return errors.Join(h.Err(), c.keepOldBoards())
}

// ErrNewer says that a file of the journal is of a newer version.
var ErrNewer = errors.New("the journal is of a newer underlay")

// keepOldBoards remembers the files of boards that have changed since they
// were last practised on.
func (c *Course) keepOldBoards() error {
	for _, b := range c.config.Boards {
		hash, met := c.past.Hash[b.Name]
		if !met || hash == b.Hash() || c.past.Was[b.Name] != "" {
			continue
		}
		boards, err := c.past.history.Boards()
		if err != nil {
			return err
		}
		c.past.Was[b.Name] = boards[hash].Source
	}
	return nil
}

// Problems lists the places of the journal that could not be read.
func (c *Course) Problems() []journal.Problem {
	if c.past.history == nil {
		return nil
	}
	return c.past.history.Problems()
}

func newPast() *past {
	return &past{Days: map[string]float64{}, Hash: map[string]string{}, Was: map[string]string{}, Names: map[string]use{}}
}

// forget drops all that was learned, and strokes that boards had before.
func (c *Course) forget() {
	c.past = newPast()
	c.strokes = newStrokes(c.config.Boards, c.mix, c.config.Keeps)
	c.newScheduler()
}

// newScheduler begins a model of the strokes as they are now, and with it what
// is counted besides.
func (c *Course) newScheduler() {
	c.scheduler = scheduler.New(c.strokes.features, c.lines(), scheduler.Options{Aim: c.config.Aim, Seed: c.config.Seed})
	if c.config.Watch != nil {
		c.config.Watch.Start(c)
	}
}

// replay learns from the drills after from, and returns the strokes in them
// that are not known, with when they were last met.
func (c *Course) replay(h *journal.History, from journal.Position, progress func(int)) map[old]time.Time {
	missing := map[old]time.Time{}
	n := 0
	for d := range h.Drills(from) {
		if c.config.Watch != nil {
			c.config.Watch.Drill(d)
		}
		c.learn(d, missing)
		if n++; progress != nil && n%1000 == 0 {
			progress(n)
		}
	}
	c.past.fresh = n
	return missing
}

// fewDrills are read from the journal again in no time; the cache is written
// when there are more.
const fewDrills = 100

// Keep saves what was derived from the journal for the next start, if there
// is much that is new. It is for before practice: drills that were observed
// since the start are read from the journal next time.
func (c *Course) Keep() error {
	p := c.past
	if c.config.Past.Cache.Store == nil || p.history == nil || p.fresh < fewDrills || len(c.before) > 0 {
		return nil
	}
	d := derived{past: p, skill: c.scheduler.Snapshot()}
	if c.config.Watch != nil {
		var err error
		if d.watch, err = c.config.Watch.MarshalBinary(); err != nil {
			return err
		}
	}
	data, err := d.encode()
	if err != nil {
		return err
	}
	p.fresh = 0
	return c.config.Past.Cache.Save(p.key, p.at, data)
}

// restore puts back what Keep saved.
func (c *Course) restore(data []byte) error {
	d, err := decodeDerived(data)
	if err != nil {
		return err
	}
	for _, m := range d.past.Moved {
		c.strokes.addRetired(m)
	}
	c.newScheduler()
	if err := c.scheduler.Restore(d.skill); err != nil {
		return err
	}
	if c.config.Watch != nil {
		if err := c.config.Watch.UnmarshalBinary(d.watch); err != nil {
			return err
		}
	}
	c.past = d.past
	return nil
}

// key names what the derived data depend on besides the journal: the form of
// the data, the program, the boards, and all strokes with their features.
func (c *Course) key() string {
	sum := sha256.New()
	fmt.Fprintln(sum, "derived 5", c.config.Past.Build)
	for _, b := range c.config.Boards {
		fmt.Fprintln(sum, b.Name, b.Hash())
	}
	for id, st := range c.strokes.all {
		fmt.Fprintln(sum, st.Symbol, st.Stroke, c.strokes.features[id])
	}
	return hex.EncodeToString(sum.Sum(nil)[:16])
}

// old is a stroke of a journal that the boards do not have now.
type old struct {
	spelled
	hash string
}

// retire adds strokes that boards had before, oldest first, and tells each
// stroke that replaced one.
func (c *Course) retire(missing map[old]time.Time, boards map[string]journal.Board) {
	read := map[string]*board.Board{}
	for _, o := range inOrder(missing) {
		b, ok := read[o.hash]
		if !ok {
			b, _ = board.Read(boards[o.hash].Name, []byte(boards[o.hash].Source))
			read[o.hash] = b
		}
		c.strokes.retire(o, b, c.config.Boards[o.board])
		m := change{Last: missing[o]}
		id := c.strokes.spelled[o.spelled]
		m.Stroke, m.Features = c.strokes.all[id], c.strokes.features[id]
		c.past.Moved = append(c.past.Moved, m)
	}
	c.newScheduler()
}
