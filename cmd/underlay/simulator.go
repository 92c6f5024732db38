package main

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"slices"
	"time"

	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler/journal"
	"underlay/scheduler/learners"
)

// simulator sits a simulated typist down at the sitting's state machine, day
// after day. Only the screen and the clock are missing.
type simulator struct {
	practice *practice
	typist   learners.Typist
	start    time.Time
	draw     *rand.Rand

	model *session.Model
	now   time.Time
	prev  int // the stroke before, or -1
	today simulatedDay
	right []float64 // latencies of the day
	err   error
}

// inventor is the machine's name in invented histories: it marks them.
const inventor = "invented"

// newSimulator prepares a typist and a journal in dirs, which must not have
// one yet.
func (e *Env) newSimulator(o simulation, w wish, dirs Dirs) (*simulator, error) {
	store := journal.NewDisk(dirs.Journal())
	if list, _ := fs.Glob(store.FS(), "*.journal"); len(list) > 0 {
		return nil, misuse("there is a journal in %q already", dirs.Journal()).hinted("name a directory that is empty, or that does not exist")
	}
	alone := *e
	alone.Dirs = dirs
	alone.Dirs.Config = e.Dirs.Config
	cfg, err := e.configuration()
	if err != nil {
		return nil, err
	}
	cfg.From = nil // the history must not depend on files outside
	p := &practice{env: &alone, wish: w, started: firstDay(e.Now(), o.days), seed: o.seed, writer: newWriter(dirs)}
	if err := p.use(cfg); err != nil {
		return nil, err
	}
	typist, err := newTypist(o.typist, workOf(p.course), o.seed)
	if err != nil {
		return nil, err
	}
	p.writer.journal, err = journal.Open(unsynced{store}, inventor)
	if err != nil {
		return nil, err
	}
	return &simulator{practice: p, typist: typist, start: p.started, draw: rand.New(rand.NewPCG(o.seed, 11))}, nil
}

// workOf is what the typist types at work: the strokes, and the pairs in which
// they follow each other.
func workOf(c *course.Course) *learners.Work {
	pairs := map[learners.Pair]float64{}
	for pair, share := range c.Pairs() {
		pairs[learners.Pair{Prev: pair[0], ID: pair[1]}] = share
	}
	return learners.NewWork(c.AllFeatures(), pairs)
}

// day practises one session.
func (s *simulator) day(n int) (simulatedDay, error) {
	s.now = s.start.Add(time.Duration(n)*24*time.Hour + time.Duration(s.draw.IntN(90))*time.Minute)
	s.today, s.right, s.prev = simulatedDay{Day: n}, nil, -1
	begun := s.now
	s.model = session.New(s.practice.course, session.Options{Session: sessionName(s.now), Settings: s.practice.settings(), Now: s.now})
	for s.err == nil && s.step() {
	}
	if s.err != nil {
		return simulatedDay{}, s.err
	}
	d := &s.today
	d.Minutes = rounded(s.practice.course.Past(s.now).Today.Minutes(), 2)
	d.ErrorShare = rounded(d.ErrorShare/float64(max(1, d.Strokes)), 4)
	d.LatencyMS = rounded(median(s.right), 1)
	s.stand(d, begun)
	return *d, nil
}

// stand adds where the typist stands after the session, as the program
// believes it and as it is.
func (s *simulator) stand(d *simulatedDay, begun time.Time) {
	c := s.practice.course
	tomorrow := s.now.Add(12 * time.Hour)
	d.ExpectedMS = rounded(c.Scheduler().Pace(0, tomorrow).MS, 1)
	d.TrueMS = rounded(learners.Pace(s.typist, 0, tomorrow), 1)
	d.States = map[string]int{}
	for _, n := range c.Gains(begun, s.now).States {
		d.States[n.State.String()] = n.N
	}
}

// step does what a person would do next; it is false when the sitting is over.
func (s *simulator) step() bool {
	v := s.model.View()
	switch {
	case v.Drill != nil && v.Drill.Over == nil:
		s.press(v.Drill)
		return true
	case v.Rest != nil && !v.Rest.Between:
		s.send(session.Stop{At: s.now})
		return false
	}
	s.pause(2 * time.Second)
	key := board.Enter
	switch {
	case v.List != nil || v.Map != nil || v.Find != nil:
		key = board.Escape // a place where nobody wanted to go
	case slices.ContainsFunc(v.Keys, func(h session.Hint) bool { return h.Does == carryOn }):
		key = "c" // a stop is suggested; the days are to be alike
	}
	s.send(session.Key{Symbol: key, At: s.now})
	return true
}

// carryOn is what the sitting calls going on after it has suggested a stop.
const carryOn = "carry on"

// press presses one key of a drill.
func (s *simulator) press(d *session.DrillView) {
	c := s.practice.course
	b := slices.Index(c.Boards(), d.Board)
	id, ok := c.ID(b, d.Target.Symbol)
	if !ok {
		s.err = failure("the drill asks for %q, which %s does not have", d.Target.Symbol, d.Board.Name)
		return
	}
	if d.Cursor == 0 {
		s.prev = -1
	}
	press := s.typist.Press(id, s.prev, s.now)
	s.pause(time.Duration(press.MS * float64(time.Millisecond)))
	if v := s.model.View(); v.Drill == nil || v.Drill.Over != nil {
		return // the sitting has turned to something else in the meantime
	}
	asked := c.Answer(b, d.Target.Symbol)
	got := asked
	if press.Got != id {
		got = s.came(b, press.Got)
	}
	s.send(session.Key{Symbol: got, At: s.now})
	if got != asked {
		s.mend(d.Target.Symbol, asked, press.MS)
	}
	s.prev = id
}

// came is the symbol of a stroke that was made by mistake.
func (s *simulator) came(b, id int) board.Symbol {
	if id < 0 {
		return nothing
	}
	return s.practice.course.Answer(b, s.practice.course.Stroke(id).Symbol)
}

// mend repairs a slip as it is done at work.
func (s *simulator) mend(target, asked board.Symbol, ms float64) {
	repair := time.Duration(learners.RepairMS(ms) * float64(time.Millisecond))
	if v := s.model.View(); v.Drill != nil && len(v.Drill.Typed) > 0 && v.Drill.Typed[len(v.Drill.Typed)-1].Wrong {
		s.pause(repair / 2)
		s.send(session.Key{Symbol: board.Backspace, At: s.now})
		repair -= repair / 2
	}
	s.pause(repair)
	if v := s.model.View(); v.Drill != nil && v.Drill.Over == nil && v.Drill.Target.Symbol == target {
		s.send(session.Key{Symbol: asked, At: s.now})
	}
}

// pause lets time pass; the model gets the ticks that it wants.
func (s *simulator) pause(d time.Duration) {
	end := s.now.Add(d)
	for {
		w := s.model.Wake()
		if w.IsZero() || !w.Before(end) {
			break
		}
		s.now = later(s.now, w)
		before := w
		s.send(session.Tick{At: s.now})
		if next := s.model.Wake(); next.Equal(before) {
			break
		}
	}
	s.now = end
}

// send gives the model an event and does what it asks for.
func (s *simulator) send(e session.Event) {
	for _, effect := range slices.Clone(s.model.Update(e)) {
		r, ok := effect.(session.Record)
		if !ok {
			continue
		}
		s.count(r.Drill)
		err := s.practice.Record(r)
		s.err = errors.Join(s.err, err)
		s.send(session.Saved{Err: err, At: s.now})
	}
}

func (s *simulator) count(d journal.Drill) {
	s.today.Drills++
	for _, k := range d.Keys {
		if k.Flags.Has(journal.Repair) {
			continue
		}
		s.today.Strokes++
		switch {
		case k.Wrong():
			s.today.ErrorShare++
		case k.MS > 0 && !k.Flags.Has(journal.Helped):
			s.right = append(s.right, k.MS)
		}
	}
}

func median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	x = slices.Sorted(slices.Values(x))
	return (x[(len(x)-1)/2] + x[len(x)/2]) / 2
}

// unsynced is a store that does not wait for the disk: an invented history can
// be made again.
type unsynced struct{ journal.Store }

func (u unsynced) OpenAppend(name string) (journal.File, error) {
	f, err := u.Store.OpenAppend(name)
	return unsyncedFile{f}, err
}

func (unsynced) SyncDir() error { return nil }

type unsyncedFile struct{ journal.File }

func (unsyncedFile) Sync() error { return nil }
