package scheduler

import (
	"cmp"
	"slices"
)

// pool holds the user's code as lines of stroke ids.
type pool struct {
	lines  [][]int      // as given to New
	usable [2][]int     // indices of the lines that can be typed on a board, the shortest first
	other  [][]int      // the lines on the other board, as far as it has the symbols
	spots  [][]spot     // by stroke id: where it stands
	pairs  map[pair]int // how often two strokes follow each other
}

// pair is two strokes that follow each other.
type pair struct{ first, second int }

// spot is a place in the pool.
type spot struct{ line, at int32 }

// longestLine is as many strokes as an exercise may have; lines below
// shortestLine are not worth the pause after them, and are shown only when there are no others.
const (
	longestLine  = 120
	shortestLine = 8
)

func newPool(strokes []Stroke, lines [][]int) pool {
	p := pool{lines: lines, other: make([][]int, len(lines)), spots: make([][]spot, len(strokes)), pairs: map[pair]int{}}
	for n, line := range lines {
		if !typable(strokes, line) {
			continue
		}
		p.usable[0] = append(p.usable[0], n)
		for k, id := range line {
			p.spots[id] = append(p.spots[id], spot{int32(n), int32(k)})
			if k > 0 {
				p.pairs[pair{line[k-1], id}]++
			}
		}
		if p.other[n] = onOther(strokes, line); len(p.other[n])*10 >= len(line)*9 && len(p.other[n]) > 0 {
			p.usable[1] = append(p.usable[1], n)
		}
	}
	for b := range p.usable {
		p.usable[b] = longEnough(p.usable[b], lines)
		slices.SortStableFunc(p.usable[b], func(m, n int) int { return cmp.Compare(len(lines[m]), len(lines[n])) })
	}
	return p
}

func longEnough(usable []int, lines [][]int) []int {
	var out []int
	for _, n := range usable {
		if len(lines[n]) >= shortestLine {
			out = append(out, n)
		}
	}
	if len(out) == 0 {
		return usable
	}
	return out
}

func typable(strokes []Stroke, line []int) bool {
	for _, id := range line {
		if id < 0 || id >= len(strokes) || strokes[id].Board != 0 || strokes[id].Retired {
			return false
		}
	}
	return len(line) > 0 && len(line) <= longestLine
}

// onOther maps a line to the other board, without the symbols that it lacks.
func onOther(strokes []Stroke, line []int) []int {
	out := make([]int, 0, len(line))
	for _, id := range line {
		if o := strokes[id].Other; o >= 0 {
			out = append(out, o)
		}
	}
	return out
}

// line returns a line on a board, and whether it is whole.
func (p *pool) line(n, board int) (ids []int, whole bool) {
	if board == 0 {
		return p.lines[n], true
	}
	return p.other[n], len(p.other[n]) == len(p.lines[n])
}
