package learners

import (
	"strings"
	"testing"

	"underlay/scheduler"
)

// text is what the typists of the tests type.
const text = `func (s *Scanner) next(want rune) (tok Token, err error) {
	for s.pos < len(s.src) && isSpace(s.src[s.pos]) {
		s.pos++
	}
	if s.pos >= len(s.src) {
		return Token{Kind: EOF, At: s.pos}, nil
	}
	switch c := s.src[s.pos]; {
	case c == '"' || c == '\'':
		return s.quoted(c)
	case '0' <= c && c <= '9':
		n := 0
		for ; s.pos < len(s.src) && digit(s.src[s.pos]); s.pos++ {
			n = n*10 + int(s.src[s.pos]-'0')
		}
		return Token{Kind: Number, Value: n, At: s.pos}, nil
	case c&0x80 != 0:
		return tok, fmt.Errorf("%d: %q is no ASCII (0x%02x)", s.pos, c, c)
	}
	s.pos++ // one byte
	m := map[string][]int{"if": {1, 2}, "else": {3}}
	m["for"] = append(m["for"], 5^7|6%4, ^s.mask<<3>>1)
	return Token{Kind: Mark, Text: string(want) + "#$@~?!_-+"}, nil
}
`

// testWork is a split board with two layers, invented for these tests, and a
// standard one, with the frequencies of text.
func testWork(t testing.TB) (*Work, *builder) {
	t.Helper()
	var b builder
	b.init()
	b.half(0, 0, 0, "qwert", "asdfg", "zxcvb")
	b.half(0, 0, 1, "yuiop", "hjkl;", "nm,./")
	b.add(scheduler.Stroke{Layer: 0, Hand: 0, Finger: thumb}, ' ')
	b.add(scheduler.Stroke{Layer: 0, Hand: 1, Finger: thumb, Col: 5}, '\n')
	b.half(0, 1, 0, "QWERT", "ASDFG", "ZXCVB")
	b.half(0, 1, 1, "YUIOP", "HJKL", "NM")
	b.half(0, 2, 0, "~<>%`", "-+=&!", "^#*|@")
	b.half(0, 2, 1, "[]_?:", "(){}\"", "'$\\")
	b.half(0, 3, 1, "789", "0456", "123")
	for row, keys := range []string{"zxcvbnm,./", "asdfghjkl;'", "qwertyuiop[]\\", "`1234567890-="} {
		shifted := []string{"ZXCVBNM<>?", "ASDFGHJKL:\"", "QWERTYUIOP{}|", "~!@#$%^&*()_+"}[row]
		b.standard(0, row+1, keys)
		b.standard(1, row+1, shifted)
	}
	b.add(scheduler.Stroke{Board: 1, Hand: 0, Finger: thumb}, ' ')
	b.add(scheduler.Stroke{Board: 1, Hand: 1, Row: 2, Col: 12}, '\n')
	return b.work(), &b
}

type builder struct {
	strokes []scheduler.Stroke
	by      [2]map[rune]int
}

func (b *builder) init() { b.by = [2]map[rune]int{{}, {}} }

func (b *builder) add(s scheduler.Stroke, c rune) {
	s.Other, s.Was = -1, -1
	b.by[s.Board][c] = len(b.strokes)
	b.strokes = append(b.strokes, s)
}

// half adds the rows of a hand, from the top.
func (b *builder) half(board, layer, hand int, rows ...string) {
	for r, row := range rows {
		for col, c := range []rune(row) {
			finger := []int{0, 1, 2, 3, 3}[col]
			if hand == 1 {
				finger, col = []int{3, 3, 2, 1, 0}[col], col+5
			}
			b.add(scheduler.Stroke{Board: board, Layer: layer, Hand: hand, Finger: finger, Row: 3 - r, Col: col}, c)
		}
	}
}

func (b *builder) standard(layer, row int, keys string) {
	for col, c := range keys {
		at := col
		if row == 4 {
			at = max(0, col-1)
		}
		fingers := []int{0, 1, 2, 3, 3, 3, 3, 2, 1, 0, 0, 0, 0, 0}
		hand := 0
		if at >= 5 {
			hand = 1
		}
		b.add(scheduler.Stroke{Board: 1, Layer: layer, Hand: hand, Finger: fingers[at], Row: row, Col: col}, c)
	}
}

// work counts the text.
func (b *builder) work() *Work {
	pairs := map[Pair]float64{}
	typed := strings.ReplaceAll(text, "\t", "")
	for board := range 2 {
		prev, n := -1, 0.0
		for _, c := range typed {
			if id, ok := b.by[board][c]; ok {
				b.strokes[id].Freq++
				if n++; prev >= 0 {
					pairs[Pair{prev, id}]++
					if b.strokes[prev].Layer != b.strokes[id].Layer {
						b.strokes[id].Switch++
					}
				}
				if prev = id; c == '\n' {
					prev = -1
				}
			}
		}
		for c, id := range b.by[board] {
			s := &b.strokes[id]
			if s.Freq > 0 {
				s.Switch /= s.Freq
			}
			s.Freq = (s.Freq + .5) / (n + .5*float64(len(b.by[board])))
			if o, ok := b.by[1-board][c]; ok {
				s.Other = o
			}
		}
		for p := range pairs {
			if b.strokes[p.ID].Board == board {
				pairs[p] /= n
			}
		}
	}
	return NewWork(b.strokes, pairs)
}

// line is a line of the text as strokes of a board.
func (b *builder) lines(board int) (lines [][]int) {
	for l := range strings.Lines(strings.ReplaceAll(text, "\t", "")) {
		var ids []int
		for _, c := range l {
			if id, ok := b.by[board][c]; ok {
				ids = append(ids, id)
			}
		}
		lines = append(lines, ids)
	}
	return lines
}
