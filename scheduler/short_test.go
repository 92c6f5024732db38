package scheduler_test

import (
	"testing"
	"time"

	"underlay/scheduler"
)

// sittings lets a typist practise for days, and returns for each sitting the kinds
// of blocks that were planned and the exercises of each that came.
func sittings(w *world, kind string, seed uint64, c course, days int) (planned, came []map[scheduler.BlockKind]int) {
	r := &counted{real: newReal(w, seed)}
	p := newPractice(w, newTypist(kind, w.work, seed), r, seed)
	p.length, p.miss = time.Duration(c.minutes*float64(time.Minute)), c.miss
	for d := range days {
		p.day(d)
	}
	return r.planned, r.came
}

// counted counts the blocks of the scheduler.
type counted struct {
	real
	planned, came []map[scheduler.BlockKind]int
}

func (c *counted) begin(now time.Time, length time.Duration) {
	planned := map[scheduler.BlockKind]int{}
	for _, b := range c.s.Begin(now, length).Blocks {
		planned[b.Kind]++
	}
	c.planned, c.came = append(c.planned, planned), append(c.came, map[scheduler.BlockKind]int{})
}

func (c *counted) next(now time.Time, left time.Duration) []int {
	e, ok := c.s.Next(now, left)
	if !ok {
		return nil
	}
	c.came[len(c.came)-1][e.Block]++
	return e.Items
}

// Short and long sessions, and those of somebody who misses two days of five, have
// all that was planned: the warm-up and practice each time, the other board and
// the probe in nearly all, for slow typists too.
func TestSessionsOfEveryLengthHoldAllBlocks(t *testing.T) {
	w := newWorld(code)
	for name, c := range map[string]course{"3 minutes": {3, .15}, "4 minutes": {4, .15}, "20 minutes": {20, .15}, "40 % missed": {8, .4}} {
		for _, kind := range typists() {
			missing, n := map[scheduler.BlockKind]int{}, 0
			for seed := range uint64(3) {
				planned, came := sittings(w, kind, seed+1, c, 20)
				for i := range planned {
					n++
					for b := range planned[i] {
						if came[i][b] == 0 {
							missing[b]++
						}
					}
				}
			}
			for b, k := range missing {
				if share := float64(k) / float64(n); share > .06 || (b == scheduler.WarmUp || b == scheduler.ComingBack) && k > 0 {
					t.Errorf("%s, %s: %s is missing in %d of %d sittings", kind, name, b, k, n)
				}
			}
		}
	}
}

// In a month of three minutes a day few strokes of 128 are neglected (with draws it is
// more than thirty); with missed days and with twenty minutes none is. All are better than draws.
func TestEveryLengthIsServed(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates for some seconds")
	}
	w := newWorld(code)
	all := ways()
	pair := []way{all[0], all[len(all)-1]}
	for name, c := range map[string]course{"3 minutes": {3, .15}, "20 minutes": {20, .15}, "40 % missed": {8, .4}} {
		for _, kind := range typists() {
			r := ratios(w, w, kind, 4, c, pair)[1]
			if r.day7 > .99 || r.day30 > .99 || r.after > .99 || r.rare > .98 || r.neglected > 7 || c.minutes > 3 && r.neglected > .5 {
				t.Errorf("%s, %s: ratios to draws by frequency %+v", kind, name, r)
			}
		}
	}
}
