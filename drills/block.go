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
	code                  // statements
	elements              // values with commas
	fields                // what a type or a block of declarations holds
	cases                 // what a choice is made from
)

// inside returns what stands in the block that a line opens.
func inside(line []corpus.Token) place {
	has := func(words ...string) bool {
		return slices.ContainsFunc(line, func(t corpus.Token) bool { return slices.Contains(words, t.Text) })
	}
	last := line[len(line)-1].Text
	switch {
	case has("switch", "select", "match", "case"):
		return cases
	case has("struct", "interface", "class", "enum", "union", "trait", "impl", "import", "module", "namespace") || last != "{" && has("const", "var", "type"):
		return fields
	case last != "{":
		return elements
	case len(line) > 1 && !line[len(line)-1].Spaced, len(line) > 1 && slices.Contains([]string{"=", ":", ",", "return", "=>", "("}, line[len(line)-2].Text):
		if line[len(line)-2].Text == "=>" {
			return code
		}
		return elements
	}
	return code
}

// stands tells whether a line may stand at a place.
func (l *language) stands(s shape, at place) bool {
	last := s.line[len(s.line)-1].Text
	switch at {
	case code:
		return l.statement(s, last)
	case elements:
		return last == ","
	case fields:
		return l.field(s, last)
	case cases:
		first := s.line[0].Text
		return first == "case" || first == "default" || first == "when" || last == ","
	}
	return true
}

// statement tells whether a line is something that is done.
func (l *language) statement(s shape, last string) bool {
	first := s.line[0].Text
	switch {
	case first == "case" || first == "default" || first == "when" || first == "else" || first == "elif" || first == "end":
		return false
	case last == "," || last == ":" || isOpener(last) && declares(s.line):
		return false
	case l.semicolons:
		return last == ";" && !declares(s.line)
	}
	return !declares(s.line) && !juxtaposed(s.line) && (len(s.line) > 1 || word(first) && !atomWord(first)) &&
		!isQuote(first) && first != corpus.AnyNumber && !(len(s.line) > 1 && s.line[1].Text == ":")
}

// field tells whether a line is what a type, or a block of declarations, holds.
func (l *language) field(s shape, last string) bool {
	if s.opens != "" || last == "," && !l.semicolons {
		return false
	}
	if l.semicolons {
		return last == ";" && (juxtaposed(s.line) || declares(s.line))
	}
	return juxtaposed(s.line) || len(s.line) > 2 && s.line[1].Text == "=" && s.line[0].Text != corpus.AnyName
}

// juxtaposed tells whether a line begins with two operands side by side, as a
// name and its type.
func juxtaposed(line []corpus.Token) bool {
	return len(line) > 1 && operandClass(line[0].Text) && line[1].Spaced && (operandClass(line[1].Text) || line[1].Text == "[" || line[1].Text == "*")
}

// The most that one drill of lines may hold, unless a single line is longer.
const (
	mostLines   = 5
	mostStrokes = 60
)

// block draws a line and, where it opens brackets, lines until they are closed.
func (l *language) block(rng *rand.Rand) told { return l.blockFrom(l.first(rng), rng) }

func (l *language) blockFrom(s shape, rng *rand.Rand) told {
	var b strings.Builder
	t := teller{namer: l.names, said: map[string][]string{}, shout: rng.Float64() < l.shouts}
	t.tell(&b, s.line, rng)
	at, body := place(0), 0
	for open := s.opens; open != ""; {
		if len(s.line) > 0 && s.opens != "" {
			at, body = inside(s.line), 0
		}
		if body > 0 && (body >= mostLines-2 || b.Len() > mostStrokes/2 || rng.IntN(2) == 0) && !(at == cases && body == 1) {
			s = l.closing(open, rng)
			open = open[:len(open)-len(s.closes)] + s.opens
		} else {
			s = l.bodyLine(at, body, rng)
			body++
		}
		t.tell(&b, s.line, rng)
	}
	return told{b.String(), t.bodies}
}

// bodyLine draws a line of a block.
func (l *language) bodyLine(at place, body int, rng *rand.Rand) shape {
	if at == cases && body > 0 {
		at = code
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
	s := shape{closes: all}
	for _, c := range all {
		s.line = append(s.line, corpus.Token{Text: string(c)})
	}
	return s
}
