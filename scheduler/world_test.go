package scheduler_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"time"

	"underlay/scheduler"
	"underlay/scheduler/learners"
)

// code is what the simulated typists of these tests work on; invented.
const code = `func (w *Walker) visit(n *Node, depth int) (err error) {
if n == nil || depth > w.limit {
return nil
}
for i, c := range n.children {
if err := w.visit(c, depth+1); err != nil {
return fmt.Errorf("child %d of %q: %w", i, n.name, err)
}
}
w.seen[n.name] = append(w.seen[n.name], depth)
switch k := n.kind; k {
case Leaf, Branch:
w.total += n.weight * 0.75
default:
w.odd++
}
return w.out.Flush()
}
type Store struct {
mu sync.Mutex
rows map[string][]byte // by key
}
var sizes = [...]int{16, 64, 256, 1024, 4096, 8192, 30000, 75000}
mask := (1<<n - 1) &^ (x ^ y) | z>>3
if !ok && (a <= b || c >= d) { x, y = y, x }
s := strings.TrimSpace(line[at+1:len(line)-2])
fmt.Fprintf(os.Stderr, "%s: %v\n", path, err)
go func() { done <- run(ctx, args...) }()
const usage = "walk [-n depth] [-o file] root"
for f in *.txt; do wc -l "$f" | awk '{ print $1 }'; done
test -d "$HOME/.cache" || mkdir -p "$HOME/.cache"
grep -rn 'TODO' --include='*.go' . 2>/dev/null > todo.list &
PATH="$PATH:/opt/bin"; export PATH
rows = [r.split(",") for r in text.splitlines() if r and r[0] != "#"]
total = sum(int(r[3]) ** 2 % 97 for r in rows) // len(rows)
print(f"{total:>8} {name!r} @ {when:%Y}", file=sys.stderr)
a.href = "https://example.org/?q=" + escape(q) + "&page=" + (n + 1);
let f = (x) => x?.value ?? { id: -1, tags: [] };
SELECT name, SUM(weight) FROM node WHERE depth < 5 GROUP BY name;
while (*p && *p != '\0') { *q++ = ~*p++ & 0x7F; }
#define WIDTH 80
return m, m != nil && m.When.After(w.Last)
w.queue, w.next = w.queue[1:], w.queue[0]
x := float64(hits) / float64(max(1, hits+misses))
`

// world is a split board with its layers and a standard one, and the work on them.
type world struct {
	strokes []scheduler.Stroke
	by      [2]map[rune]int
	lines   [][]int
	work    *learners.Work
}

// newWorld counts the text. Keys that no text shows get a twelfth of the strokes.
func newWorld(text string) *world {
	w := &world{by: [2]map[rune]int{{}, {}}}
	w.half(0, 0, "qwert", "asdfg", "zxcvb")
	w.half(0, 1, "yuiop", "hjkl;", "nm,./")
	w.add(scheduler.Stroke{Finger: 4}, ' ')
	w.add(scheduler.Stroke{Hand: 1, Finger: 4, Col: 5}, '\n')
	w.half(1, 0, "QWERT", "ASDFG", "ZXCVB")
	w.half(1, 1, "YUIOP", "HJKL", "NM")
	w.half(2, 0, "~`<>%", "!-+=&", "^#*|@")
	w.half(2, 1, "[]_:?", "(){}\"", "'$\\")
	w.half(3, 1, "789", "0456", "123")
	unseen := w.unseen(3, 0, 4)
	unseen = append(unseen, w.unseen(4, 1, 15)...)
	unseen = append(unseen, w.unseen(5, 0, 12)...)
	for row, keys := range []string{"zxcvbnm,./", "asdfghjkl;'", "qwertyuiop[]\\", "`1234567890-="} {
		w.standard(0, row+1, keys)
		w.standard(1, row+1, []string{"ZXCVBNM<>?", "ASDFGHJKL:\"", "QWERTYUIOP{}|", "~!@#$%^&*()_+"}[row])
	}
	w.add(scheduler.Stroke{Board: 1, Finger: 4}, ' ')
	w.add(scheduler.Stroke{Board: 1, Hand: 1, Row: 2, Col: 12}, '\n')
	w.pair()
	w.count(text, unseen)
	return w
}

func (w *world) add(s scheduler.Stroke, c rune) int {
	s.Other, s.Was = -1, -1
	id := len(w.strokes)
	if c != 0 {
		w.by[s.Board][c] = id
	}
	w.strokes = append(w.strokes, s)
	return id
}

// half adds the rows of a hand, from the top.
func (w *world) half(layer, hand int, rows ...string) {
	for r, row := range rows {
		for col, c := range []rune(row) {
			w.add(onSplit(layer, hand, 3-r, col), c)
		}
	}
}

func onSplit(layer, hand, row, col int) scheduler.Stroke {
	finger := []int{0, 1, 2, 3, 3}[col%5]
	if hand == 1 {
		finger, col = []int{3, 3, 2, 1, 0}[col%5], col%5+5
	}
	return scheduler.Stroke{Layer: layer, Hand: hand, Finger: finger, Row: row, Col: col}
}

// unseen adds keys without a character, from the home row.
func (w *world) unseen(layer, hand, n int) (ids []int) {
	for k := range n {
		ids = append(ids, w.add(onSplit(layer, hand, []int{2, 3, 1}[k/5], k%5), 0))
	}
	return ids
}

func (w *world) standard(layer, row int, keys string) {
	for col, c := range []rune(keys) {
		at := col
		if row == 4 {
			at = max(0, col-1)
		}
		s := scheduler.Stroke{Board: 1, Layer: layer, Row: row, Col: col, Finger: []int{0, 1, 2, 3, 3, 3, 3, 2, 1, 0, 0, 0, 0, 0}[at]}
		if at >= 5 {
			s.Hand = 1
		}
		w.add(s, c)
	}
}

func (w *world) pair() {
	for c, a := range w.by[0] {
		if b, ok := w.by[1][c]; ok {
			w.strokes[a].Other, w.strokes[b].Other = b, a
		}
	}
}

func (w *world) count(text string, unseen []int) {
	n := make([]float64, len(w.strokes))
	switched := make([]float64, len(w.strokes))
	pairs := map[learners.Pair]float64{}
	total := 0.0
	for _, l := range strings.SplitAfter(text, "\n") {
		var line []int
		for _, c := range l {
			if id, ok := w.by[0][c]; ok {
				line = append(line, id)
			}
		}
		if len(line) > 1 {
			w.lines = append(w.lines, line)
		}
		for board := range 2 {
			prev := -1
			for _, id := range line {
				if board == 1 {
					id = w.strokes[id].Other
				}
				if id < 0 {
					prev = -1
					continue
				}
				n[id]++
				w.strokes[id].Text = true
				if prev >= 0 {
					pairs[learners.Pair{Prev: prev, ID: id}]++
					if w.strokes[prev].Layer != w.strokes[id].Layer {
						switched[id]++
					}
				}
				prev = id
			}
		}
		total += float64(len(line))
	}
	for i := range pairs {
		pairs[i] /= total
	}
	sum := 0.0
	for k := range unseen {
		sum += 1 / float64(k+1)
	}
	for id := range w.strokes {
		s := &w.strokes[id]
		s.Freq = (n[id] + .2) / total
		s.Switch = .5
		if n[id] > 0 {
			s.Switch = switched[id] / n[id]
		}
	}
	for k, id := range unseen {
		w.strokes[id].Freq = 1 / float64(k+1) / sum / 12
	}
	w.normalise()
	w.work = learners.NewWork(w.strokes, pairs)
}

func (w *world) normalise() {
	var sum [2]float64
	for _, s := range w.strokes {
		sum[s.Board] += s.Freq
	}
	for i := range w.strokes {
		w.strokes[i].Freq /= sum[w.strokes[i].Board]
	}
}

// start is a Monday morning.
func start() time.Time { return time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC) }

// chooser is a way to practise.
type chooser interface {
	begin(now time.Time, length time.Duration)
	next(now time.Time, left time.Duration) []int
	observe(scheduler.Try)
}

// real is the scheduler as a way to practise.
type real struct{ s *scheduler.Scheduler }

func (r real) begin(now time.Time, length time.Duration) { r.s.Begin(now, length) }
func (r real) observe(t scheduler.Try)                   { r.s.Observe(t) }
func (r real) next(now time.Time, left time.Duration) []int {
	e, ok := r.s.Next(now, left)
	if !ok {
		return nil
	}
	return e.Items
}

func newReal(w *world, seed uint64) real {
	return real{scheduler.New(w.strokes, w.lines, scheduler.Options{Seed: seed, OldMS: 250})}
}

// practice lets a typist practise for days.
type practice struct {
	w      *world
	typist learners.Typist
	way    chooser
	length time.Duration
	miss   float64 // chance of a missed day
	tries  []int   // by stroke
	each   func(scheduler.Try)
	days   *rand.Rand
}

func newPractice(w *world, t learners.Typist, way chooser, seed uint64) *practice {
	return &practice{w: w, typist: t, way: way, length: 8 * time.Minute, miss: .15, tries: make([]int, len(w.strokes)), days: rand.New(rand.NewPCG(seed, 31))}
}

// day lets a day pass. The first one is never missed.
func (p *practice) day(n int) {
	missed := p.days.Float64() < p.miss
	if n > 0 && missed {
		return
	}
	now := start().AddDate(0, 0, n).Add(time.Duration(n*37%5) * time.Hour)
	end := now.Add(p.length)
	p.way.begin(now, p.length)
	for now.Before(end) {
		ids := p.way.next(now, end.Sub(now))
		if len(ids) == 0 {
			return
		}
		now = p.exercise(ids, now, end).Add(1500 * time.Millisecond)
	}
}

// exercise types strokes in a row, and returns when that was done.
func (p *practice) exercise(ids []int, now, end time.Time) time.Time {
	prev, slipped := -1, false
	for _, id := range ids {
		k := p.typist.Press(id, prev, now)
		cost := k.MS
		if k.Slip != learners.Right {
			cost += learners.RepairMS(k.MS)
		}
		now = now.Add(time.Duration(cost * float64(time.Millisecond)))
		t := scheduler.Try{ID: id, Prev: prev, At: now, MS: math.Round(k.MS*10) / 10, Wrong: k.Slip != learners.Right, Pressed: k.Got, First: prev < 0, AfterSlip: slipped}
		if prev >= 0 {
			a, b := &p.w.strokes[prev], &p.w.strokes[id]
			t.Switch = a.Layer != b.Layer || a.Board != b.Board
			t.SameFinger = !t.Switch && prev != id && a.Hand == b.Hand && a.Finger == b.Finger
		}
		p.way.observe(t)
		if p.each != nil {
			p.each(t)
		}
		p.tries[id]++
		prev, slipped = id, t.Wrong
		if !now.Before(end) {
			break
		}
	}
	return now
}

// morning is when a day's practice has to have helped.
func morning(day int) time.Time { return start().AddDate(0, 0, day+1).Add(-time.Hour) }

// rareMS is the mean cost of the strokes of the split board below one per mille.
func (p *practice) rareMS(at time.Time) float64 {
	sum, n := 0.0, 0.0
	for id, s := range p.w.strokes {
		if s.Board == 0 && s.Freq < .001 {
			sum += p.typist.Expect(id, at).Cost
			n++
		}
	}
	return sum / n
}

// neglected counts the strokes of the split board with fewer than 5 tries.
func (p *practice) neglected() (n int) {
	for id, s := range p.w.strokes {
		if s.Board == 0 && p.tries[id] < 5 {
			n++
		}
	}
	return n
}
