package journaltest

import (
	"bufio"
	"fmt"
	"io"
	"iter"
	"math"
	"math/rand/v2"
	"time"

	"underlay/scheduler/journal"
)

// Years describes an invented history, the same for the same values. The
// strokes get faster in it, but nobody who learns is simulated: it serves to try
// how much can be read how fast.
type Years struct {
	Machine string
	Board   journal.Board
	Strokes [][2]string // symbol and stroke, those that are typed most first
	Start   time.Time   // of the first session
	Days    int         // with a session each
	Drills  int         // in a session
	Keys    int         // in a drill
	Seed    uint64
}

// Five is five years with 1.5 million strokes: 8 minutes a day, without a day missed.
func Five() Years {
	y := Years{
		Machine: "invented", Start: time.Date(2021, 3, 1, 18, 30, 0, 0, time.FixedZone("", 3600)),
		Board: journal.Board{Name: "invented", Hash: "0f1e2d3c", Source: "name = \"invented\"\n"},
		Days:  1826, Drills: 32, Keys: 26, Seed: 1,
	}
	for c := '!'; c <= '~'; c++ {
		y.Strokes = append(y.Strokes, [2]string{string(c), fmt.Sprintf("r4c3:hold r%dc%d", c%3+1, c%10+1)})
	}
	for _, name := range []string{"Space", "Enter", "Tab", "Escape", "Backspace", "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "F5"} {
		y.Strokes = append(y.Strokes, [2]string{name, fmt.Sprintf("r4c%d", len(name)%4+1)})
	}
	return y
}

// Practice yields the drills.
func (y Years) Practice() iter.Seq[journal.Drill] {
	return func(yield func(journal.Drill) bool) {
		r := rand.New(rand.NewPCG(y.Seed, 5))
		for day := range y.Days {
			at := y.Start.AddDate(0, 0, day)
			session := fmt.Sprintf("%08x", r.Uint32())
			for range y.Drills {
				d := y.drill(r, at, session, day)
				if !yield(d) {
					return
				}
				at = d.End(len(d.Keys) - 1).Add(1500 * time.Millisecond)
			}
		}
	}
}

func (y Years) drill(r *rand.Rand, at time.Time, session string, day int) journal.Drill {
	kinds := []string{"token", "line", "pair", "number", "shell", "probe"}
	d := journal.Drill{At: at, Session: session, Board: y.Board.Name, Hash: y.Board.Hash,
		Kind: kinds[r.IntN(len(kinds))], Block: "lines", Language: "go", Treatment: "wait"}
	median := 260 + 600*math.Pow(1+float64(day), -.3)
	words := r.Perm(len(y.Strokes))[:min(9, len(y.Strokes))]
	for i := range y.Keys {
		// Squared, so that the first strokes come more often.
		u := r.Float64()
		s := y.Strokes[int(u*u*float64(len(y.Strokes)))]
		if i%2 == 0 {
			s = y.Strokes[words[i%len(words)]]
		}
		k := journal.Key{Symbol: s[0], Stroke: s[1], MS: median * math.Exp(.3*r.NormFloat64())}
		y.context(&k, i, r)
		d.Keys = append(d.Keys, k)
	}
	return d
}

// context gives a key its flags, and now and then a slip.
func (y Years) context(k *journal.Key, i int, r *rand.Rand) {
	if i == 0 {
		k.Flags |= journal.First
	}
	if r.Float64() < .3 {
		k.Flags |= journal.Switch
	}
	if r.Float64() < .04 {
		k.Got, k.Slip, k.Lost = "x", "column", 450
	}
}

// Write writes the history as one file and returns the number of strokes in it.
func (y Years) Write(w io.Writer) (strokes int, err error) {
	out := bufio.NewWriter(w)
	put := func(r journal.Record) error {
		line, err := journal.Encode(r)
		if err == nil {
			_, err = out.Write(line)
		}
		return err
	}
	y.Board.At = y.Start
	for _, r := range []journal.Record{journal.Header{At: y.Start, Version: journal.Version, Machine: y.Machine}, y.Board} {
		if err := put(r); err != nil {
			return 0, err
		}
	}
	for d := range y.Practice() {
		if err := put(d); err != nil {
			return strokes, err
		}
		strokes += len(d.Keys)
	}
	return strokes, out.Flush()
}
