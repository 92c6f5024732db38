package drills

import (
	"math/rand/v2"
	"slices"
	"strings"

	"underlay/corpus"
)

// place says what lines stand in a block.
type place int

const (
	anywhere place = iota // a line by itself
	statements
	elements // values with commas
	fields   // what a type holds
	values   // what a block of constants or variables holds
	imports
	cases // what a choice is made from
)

// inside returns what stands in the block that a line opens.
func inside(s shape) place {
	line := s.line
	last := line[len(line)-1].Text
	switch {
	case has(line, "switch", "select", "match", "case"):
		return cases
	case !isOpener(s.opens[len(s.opens)-1:]):
		return statements // a block of words
	case has(line, "import"):
		return imports
	case last != "{" && has(line, "const", "var"):
		return values
	case has(line, "struct", "interface", "class", "enum", "union", "trait", "impl", "module", "namespace"):
		return fields
	case last != "{":
		return elements
	case len(line) > 1 && !line[len(line)-1].Spaced, len(line) > 1 && slices.Contains([]string{"=", ":", ",", "return", "=>", "("}, line[len(line)-2].Text):
		if line[len(line)-2].Text == "=>" {
			return statements
		}
		return elements
	}
	return statements
}

// stands tells whether a line may stand at a place.
func (l *language) stands(s shape, at place) bool {
	last := s.line[len(s.line)-1].Text
	switch at {
	case statements:
		return l.statement(s, last)
	case elements:
		return last == ","
	case fields:
		return l.field(s, last)
	case values:
		return s.opens == "" && slices.ContainsFunc(s.line, func(t corpus.Token) bool { return t.Text == "=" })
	case imports:
		return isQuote(s.line[0].Text) && isQuote(last) && len(s.line) == 3
	case cases:
		return l.begins(s, "case", "default", "when") || !l.cases && last == ","
	}
	return true
}

// statement tells whether a line is something that is done.
func (l *language) statement(s shape, last string) bool {
	first := s.line[0].Text
	switch {
	case l.begins(s, "case", "default", "when", "else", "elif", "end"):
		return false
	case last == "," || last == ":" || isOpener(last) && declares(s.line):
		return false
	case l.semicolons:
		return last == ";" && !declares(s.line)
	}
	return !declares(s.line) && !juxtaposed(s.line) && (len(s.line) > 1 || word(first) && !atomWord(first)) &&
		!isQuote(first) && first != corpus.AnyNumber && !(len(s.line) > 1 && s.line[1].Text == ":")
}

// begins tells whether a line begins with one of some words.
func (l *language) begins(s shape, words ...string) bool {
	return len(s.line) > 0 && slices.Contains(words, s.line[0].Text)
}

// leaves tells whether nothing follows a line in its block.
func (l *language) leaves(s shape) bool {
	return l.begins(s, "return", "break", "continue", "raise", "throw", "goto")
}

// field tells whether a line is what a type holds.
func (l *language) field(s shape, last string) bool {
	if s.opens != "" || last == "," && !l.semicolons {
		return false
	}
	if l.grammar.CommaEnds {
		return len(s.line) > 2 && s.line[1].Text == ":" && last == ","
	}
	if l.semicolons {
		return last == ";" && (juxtaposed(s.line) || declares(s.line))
	}
	return juxtaposed(s.line) && !slices.ContainsFunc(s.line, func(t corpus.Token) bool { return t.Text == "=" })
}

// juxtaposed tells whether a line begins with two operands side by side, as a
// name and its type.
func juxtaposed(line []corpus.Token) bool {
	return len(line) > 1 && operandClass(line[0].Text) && line[1].Spaced && (operandClass(line[1].Text) || line[1].Text == "[" || line[1].Text == "*")
}

// How many lines and strokes a drill of lines has: no more than the first two
// unless a single line is longer, and more lines while it is shorter than the
// last.
const (
	mostLines    = 5
	mostStrokes  = 60
	leastStrokes = 14
)

// block draws a line and, where it opens brackets, lines until they are closed.
func (l *language) block(rng *rand.Rand) told { return l.blockFrom(l.first(rng), rng) }

func (l *language) blockFrom(first shape, rng *rand.Rand) told {
	t := newTeller(l, rng)
	b := block{language: l, rng: rng}
	if before := l.before(first, rng); len(before.line) > 0 {
		t.tell(before.line)
	}
	for s := first; len(s.line) > 0; s = b.next(t.text.Len()) {
		t.tell(s.line)
		b.take(s)
		if b.open == "" && (t.text.Len() >= leastStrokes || b.lines >= mostLines || l.leaves(s)) {
			break
		}
	}
	return told{t.text.String(), t.bodies}
}

// before draws a line to stand before one that leaves its block and is short.
func (l *language) before(s shape, rng *rand.Rand) shape {
	const short = 4 // tokens
	if len(s.line) > short || !l.leaves(s) {
		return shape{}
	}
	if b := l.bodyLine(statements, 1, rng); len(b.line) > 0 && b.opens == "" && !l.leaves(b) {
		return b
	}
	return shape{}
}

// block is a row of lines in the making.
type block struct {
	*language
	rng   *rand.Rand
	open  string // brackets
	at    place  // inside of the innermost
	body  int    // lines since it was opened
	lines int
	last  shape
}

func (b *block) take(s shape) {
	b.last = s
	b.open = b.open[:len(b.open)-len(s.closes)] + s.opens
	b.lines++
	if b.body++; s.opens != "" {
		b.at, b.body = inside(s), 0
	}
}

// next draws the line after those that are there, which have so many strokes.
func (b *block) next(strokes int) shape {
	switch {
	case b.open == "" && b.stands(b.last, statements):
		return b.bodyLine(statements, 1, b.rng)
	case b.open == "":
		return b.line(b.rng, false)
	case b.body == 0 || b.at == cases && b.body == 1:
		return b.bodyLine(b.at, b.body, b.rng)
	case b.leaves(b.last) || b.lines >= mostLines-1 || strokes > mostStrokes/2 || b.rng.IntN(2) == 0:
		return b.closing(b.open, b.rng)
	}
	return b.bodyLine(b.at, b.body, b.rng)
}

// bodyLine draws a line of a block.
func (l *language) bodyLine(at place, body int, rng *rand.Rand) shape {
	if at == cases && body > 0 {
		at = statements
	}
	var last shape
	for range 40 {
		s := l.line(rng, false)
		if len(s.line) == 0 {
			break
		}
		if last = s; l.stands(s, at) {
			break
		}
	}
	return last
}

// closing draws a line that closes what is open, the innermost at least.
func (l *language) closing(open string, rng *rand.Rand) shape {
	all := closersOf(open)
	for n := len(all); n > 0; n-- {
		var fit sampler
		ids := l.closed[all[:n]]
		for _, i := range ids {
			if l.shapes[i].opens == "" {
				fit.add(l.shapes[i].count)
			} else {
				fit.add(0)
			}
		}
		if i := fit.draw(rng); i >= 0 {
			return l.shapes[ids[i]]
		}
	}
	n := max(1, len(all)-len(strings.TrimLeft(all, closers)))
	s := shape{closes: all[:n]}
	for _, c := range all[:n] {
		text := string(c)
		if !isCloser(text) {
			text = l.closingWord(byte(c))
		}
		s.line = append(s.line, corpus.Token{Text: text})
	}
	return s
}
