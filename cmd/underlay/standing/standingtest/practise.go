// Package standingtest makes invented histories for tests: somebody practises
// on two embedded boards, gets faster and slips.
package standingtest

import (
	"errors"
	"fmt"
	"iter"
	"math"
	"math/rand/v2"
	"time"

	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/standing"
	"underlay/corpus"
	"underlay/drills/board"
	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// Invented is a history and what reads it.
type Invented struct {
	Store  *journaltest.Store
	Boards []*board.Board
	// Steep is how many ms each unit of effort takes more on the board being
	// learned.
	Steep float64
	// Absent is the share of strokes at which attention wanders, for absentMS.
	Absent float64
	config course.Config
	rng    *rand.Rand
	tries  map[int]int
	course *course.Course // knows the strokes; learns nothing
}

// Start is when the first session of a history begins.
func Start() time.Time {
	return time.Date(2026, 9, 1, 18, 30, 0, 0, time.FixedZone("", 2*3600))
}

// New begins a history on embedded boards: the one being learned and, if there
// is a second name, the other one.
func New(names ...string) (*Invented, error) {
	var boards []*board.Board
	for _, name := range names {
		b, err := board.Load(name)
		if err != nil {
			return nil, err
		}
		boards = append(boards, b)
	}
	return On(boards...)
}

// On is New with boards that are not embedded.
func On(boards ...*board.Board) (*Invented, error) {
	v := &Invented{Store: &journaltest.Store{}, Boards: boards, Steep: 45, rng: rand.New(rand.NewPCG(7, 7)), tries: map[int]int{}}
	code, err := corpus.Load("go")
	if err != nil {
		return nil, err
	}
	keys, err := corpus.Load("keys")
	if err != nil {
		return nil, err
	}
	v.config = course.Config{Boards: v.Boards, Mix: []corpus.Part{{Table: code, Weight: 1}}, Keys: keys, Idle: true}
	v.course, err = course.New(v.config)
	return v, err
}

// Practise adds a session on every day from one up to another, counted from 0
// at Start: most of it on the board being learned, some lines on the other, and
// the same two lines on both as probes.
func (v *Invented) Practise(from, to int) error {
	for day := from; day < to; day++ {
		if err := v.Add(v.session(day)...); err != nil {
			return err
		}
	}
	return nil
}

// Add adds drills to the history, and their boards where they are ours.
func (v *Invented) Add(drills ...journal.Drill) error {
	j, err := journal.Open(v.Store, "invented")
	if err != nil {
		return err
	}
	defer j.Close()
	for _, d := range drills {
		for _, b := range v.Boards {
			if b.Hash() == d.Hash {
				err = errors.Join(err, j.Append(journal.Board{At: d.At, Name: b.Name, Hash: b.Hash(), Source: string(b.Source())}))
			}
		}
		if err = errors.Join(err, j.Append(d)); err != nil {
			return err
		}
	}
	return nil
}

// Plain is a drill on a board: each symbol typed once, right, in ms.
func (v *Invented) Plain(b int, at time.Time, ms float64, symbols ...board.Symbol) (journal.Drill, error) {
	d := journal.Drill{At: at, Session: at.Format(time.DateTime), Board: v.Boards[b].Name, Hash: v.Boards[b].Hash(), Kind: "position"}
	for _, s := range symbols {
		id, ok := v.course.ID(b, s)
		if !ok {
			return d, fmt.Errorf("%s has no stroke for %q", d.Board, s)
		}
		d.Keys = append(d.Keys, journal.Key{Symbol: string(s), Stroke: v.course.Stroke(id).Stroke.String(), MS: ms})
	}
	return d, nil
}

func (v *Invented) session(day int) []journal.Drill {
	at := Start().AddDate(0, 0, day)
	var out []journal.Drill
	add := func(b int, kind string, ids []int) {
		d := v.drill(b, at, day, kind, ids)
		out = append(out, d)
		at = d.End(len(d.Keys) - 1).Add(1500 * time.Millisecond)
	}
	for range 14 {
		add(0, "line", v.draw(0, 30, .7))
	}
	if len(v.Boards) == 2 {
		for range 2 {
			add(1, "line", v.draw(1, 30, 1))
		}
		for range 2 {
			line := v.draw(0, 40, 1)
			add(0, "probe", line)
			add(1, "probe", v.onOther(line))
		}
	}
	return out
}

// draw draws strokes of a board by their share, raised to a power.
func (v *Invented) draw(b, n int, power float64) []int {
	var ids []int
	var weights []float64
	total := 0.0
	for id := range v.course.Strokes() {
		if f := v.course.Features(id); f.Board == b && f.Freq > 0 {
			ids = append(ids, id)
			weights = append(weights, math.Pow(f.Freq, power))
			total += weights[len(weights)-1]
		}
	}
	var out []int
	for len(out) < n {
		u, i := v.rng.Float64()*total, 0
		for ; i < len(ids)-1 && u > weights[i]; i++ {
			u -= weights[i]
		}
		out = append(out, ids[i])
	}
	return out
}

func (v *Invented) onOther(line []int) []int {
	var out []int
	for _, id := range line {
		if other := v.course.Features(id).Other; other >= 0 {
			out = append(out, other)
		}
	}
	return out
}

// True is the expected time of a stroke in ms and its chance of a slip, as
// practised so far.
func (v *Invented) True(id int) (ms, slip float64) {
	f := v.course.Features(id)
	st := v.course.Stroke(id).Stroke
	if f.Board == 1 {
		return 190 + 30*st.Effort, .02
	}
	left := math.Exp(-float64(v.tries[id]) / 80)
	return (170 + v.Steep*st.Effort) * (1 + 1.6*left), .02 + .16*left
}

// Pace is the true expected time of a stroke of the mix on a board, repair included.
func (v *Invented) Pace(b int) float64 {
	sum := 0.0
	for id := range v.course.Strokes() {
		if f := v.course.Features(id); f.Board == b {
			ms, slip := v.True(id)
			ms *= math.Exp(noise * noise / 2)
			sum += f.Freq * (ms + v.Absent*absentMS + slip*(450+.8*ms))
		}
	}
	return sum
}

const (
	noise    = .28 // standard deviation of ln ms
	absentMS = 600
)

func (v *Invented) drill(b int, at time.Time, day int, kind string, ids []int) journal.Drill {
	d := journal.Drill{At: at, Session: fmt.Sprintf("day-%d", day), Board: v.Boards[b].Name, Hash: v.Boards[b].Hash(), Kind: kind, Language: "go"}
	layer := -1
	for i, id := range ids {
		st := v.course.Stroke(id)
		ms, slip := v.True(id)
		k := journal.Key{Symbol: string(st.Symbol), Stroke: st.Stroke.String(), MS: ms * math.Exp(noise*v.rng.NormFloat64())}
		if i == 0 {
			k.Flags |= journal.First
			k.MS += 200
		} else if l := v.course.Features(id).Layer; l != layer {
			k.Flags |= journal.Switch
		}
		layer = v.course.Features(id).Layer
		if v.Absent > 0 && v.rng.Float64() < v.Absent {
			k.MS += absentMS
		}
		if v.rng.Float64() < slip {
			k.Got, k.Slip, k.Lost = "x", []string{"layer", "layer", "column", "row", "habit"}[v.rng.IntN(5)], 450+.8*ms
		}
		v.tries[id]++
		d.Keys = append(d.Keys, k)
	}
	return d
}

// Standing reads the history and works out where its typist stands at a time.
func (v *Invented) Standing(now time.Time) (standing.Standing, error) {
	in, err := v.Input(now)
	if err != nil {
		return standing.Standing{}, err
	}
	return standing.New(in), nil
}

// Input is what a standing at a time is worked out from.
func (v *Invented) Input(now time.Time) (standing.Input, error) {
	w := &standing.Watch{}
	c := v.config
	c.Watch, c.Past = w, course.Past{Journal: v.Store.FS()}
	if _, err := course.New(c); err != nil {
		return standing.Input{}, err
	}
	return w.Input(now), nil
}

// Drills yields the history.
func (v *Invented) Drills() iter.Seq[journal.Drill] {
	return func(yield func(journal.Drill) bool) {
		h, err := journal.Read(v.Store.FS())
		if err != nil {
			return
		}
		h.Drills(journal.Position{})(yield)
	}
}
