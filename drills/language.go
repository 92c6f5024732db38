package drills

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"underlay/corpus"
	"underlay/corpus/code"
)

// language is one table, made ready for drawing lines.
type language struct {
	name       string
	grammar    code.Grammar
	names      *namer
	shapes     []shape            // the commonest lines
	plain      sampler            // of shapes, those that close nothing from before
	quoting    sampler            // of those, the ones with a string
	closed     map[string][]int   // shapes by the brackets from before that they close
	free       float64            // how many lines are none of the shapes
	next       map[string]*follow // what follows a token in such lines
	lengths    sampler            // of such lines, in tokens
	phrases    phrases
	roomy      []int            // shapes with an expression, or a row of values
	grown      []sampler        // of roomy, by the number of tokens to grow to
	semicolons bool             // statements end with one
	walks      float64          // share of free lines that are walked, not grown
	cases      bool             // choices are made by lines that begin with case
	shouts     float64          // share of lines with the language's words in capitals
	seldom     map[rune]float64 // see addSeldom
	usually    map[rune]float64 // how often each character comes in one text
	strokes    float64          // of one text, in the mean
}

// shape is one of the commonest lines, in tokens.
type shape struct {
	line   []corpus.Token
	count  float64
	closes string // brackets of lines before that it closes, in order; marks of blocks of words among them
	opens  string // those that it leaves open
}

// follow is what may follow a token.
type follow struct {
	tokens []corpus.Token
	sampler
}

func (f *follow) add(t corpus.Token, weight float64) {
	if weight > 0 {
		f.tokens = append(f.tokens, t)
		f.sampler.add(weight)
	}
}

// newLanguage makes a table ready, that of a language or of what is known of
// none (nil). Tokens that typed does not accept are left out, and with them the
// lines that they are in.
func newLanguage(t *corpus.Table, known *code.Language, typed func(text string) bool) *language {
	if known == nil {
		known = &code.Language{}
	}
	l := &language{grammar: known.Grammar, name: t.Language, names: newNamer(t, typed), closed: map[string][]int{}, next: map[string]*follow{}}
	bigrams := corpus.Counts{}
	maps.Copy(bigrams, t.Counts(corpus.Next))
	shaped := 0.0
	for _, c := range t.Counts(corpus.Line).Top(-1) {
		line := corpus.ParseLine(c.Key)
		shaped += c.N
		for i := range len(line) + 1 {
			bigrams[bigram(line, i)] -= c.N
		}
		if l.can(line, typed) {
			l.addShape(line, c.N)
		}
	}
	l.free = max(t.Counts(corpus.Start).Total()-shaped, 0)
	for _, c := range bigrams.Top(-1) {
		l.addBigram(c, typed)
	}
	ends := t.Counts(corpus.End)
	l.semicolons = ends[";"] > .2*ends.Total()
	l.addFree(t)
	l.cases = slices.ContainsFunc(l.shapes, func(s shape) bool { return l.begins(s, "case", "when") })
	l.walks = walks(len(l.roomy))
	if known.FoldsCase && l.grammar.Form == code.Statements {
		l.shouts = shouts(t)
	}
	l.addSeldom(t)
	return l
}

// bigram is the key of the token of index i and the one before it.
func bigram(line []corpus.Token, i int) string {
	before, after := corpus.LineBreak, corpus.LineBreak
	if i > 0 {
		before = line[i-1].Text
	}
	if i < len(line) {
		after = line[i].String()
	}
	return before + "\t" + after
}

func (l *language) addBigram(c corpus.Count, typed func(string) bool) {
	before, after, _ := strings.Cut(c.Key, "\t")
	t := corpus.ParseToken(after)
	if c.N <= 0 || !l.can([]corpus.Token{{Text: before}, t}, typed) {
		return
	}
	if l.next[before] == nil {
		l.next[before] = &follow{}
	}
	l.next[before].add(t, c.N)
}

func (l *language) addShape(line []corpus.Token, n float64) {
	s := shape{line: line, count: n}
	for _, t := range line {
		switch {
		case isOpener(t.Text):
			s.opens += t.Text
		case isCloser(t.Text) && s.opens == "":
			s.closes += t.Text
		case isCloser(t.Text) && closerOf(s.opens[len(s.opens)-1:]) != t.Text:
			return // brackets that cross: not a line for us
		case isCloser(t.Text):
			s.opens = s.opens[:len(s.opens)-1]
		}
	}
	s.closes = l.wordCloses(line) + s.closes
	s.opens += l.wordOpens(line)
	i := len(l.shapes)
	l.shapes = append(l.shapes, s)
	plain, quoting := 0.0, 0.0
	if l.alone(s) {
		plain = n
		if slices.ContainsFunc(line, func(t corpus.Token) bool { return t.Text == corpus.Body }) {
			quoting = math.Sqrt(n)
		}
	}
	l.plain.add(plain)
	l.quoting.add(quoting)
	l.closed[s.closes] = append(l.closed[s.closes], i)
}

// alone tells whether a line stands by itself: it closes nothing and goes on
// nothing from before.
func (l *language) alone(s shape) bool {
	return s.closes == "" && !l.begins(s, l.grammar.Within...) && l.sound(s.line)
}

// can tells whether every token of a line can be typed.
func (l *language) can(line []corpus.Token, typed func(string) bool) bool {
	for _, t := range line {
		switch t.Text {
		case corpus.AnyName, corpus.CapitalName, corpus.UpperName:
			if !l.names.can(t.Text) {
				return false
			}
		case corpus.AnyNumber:
			if len(l.names.numbers) == 0 {
				return false
			}
		case corpus.Body, corpus.LineBreak:
		default:
			if !typed(t.Text) {
				return false
			}
		}
	}
	return true
}

// first draws the first line of a drill. Since lines inside a block open no
// other, and a block has several lines, the first opens one oftener than lines
// do.
func (l *language) first(rng *rand.Rand) shape {
	const oftener = 3
	for range 40 {
		s := l.line(rng, true)
		if s.opens != "" || rng.IntN(oftener) == 0 {
			return s
		}
	}
	return l.line(rng, true)
}

// line draws one line that closes nothing from before.
func (l *language) line(rng *rand.Rand, mayOpen bool) shape {
	for range 20 {
		if rng.Float64()*(l.free+l.plain.total()) < l.free {
			draw := l.grow
			if rng.Float64() < l.walks {
				draw = l.walk
			}
			if s, ok := draw(rng); ok && (mayOpen || s.opens == "") && l.sound(s.line) {
				return s
			}
			continue
		}
		if i := l.plain.draw(rng); i >= 0 && (mayOpen || l.shapes[i].opens == "") {
			return l.shapes[i]
		}
	}
	return shape{}
}

// walks is the share of free lines that are walked from token to token: the
// fewer of a language's commonest lines have an expression to grow, the more.
func walks(roomy int) float64 {
	switch {
	case roomy < 25:
		return 1 // text and markup
	case roomy < 45:
		return .5
	}
	return 0
}

// shouts estimates how often the words of a language that does not tell
// capitals from small letters are written in capitals: from the capitals that
// its names do not explain.
func shouts(t *corpus.Table) float64 {
	capitals, words := 0.0, 0.0
	for _, c := range t.Counts(corpus.Symbol).Top(-1) {
		if len(c.Key) == 1 && 'A' <= c.Key[0] && c.Key[0] <= 'Z' {
			capitals += c.N
		}
	}
	for _, form := range []string{"A", "Aa"} {
		for _, c := range t.Counts(corpus.Length).After(form).Top(-1) {
			k, _ := strconv.Atoi(c.Key)
			if form == "Aa" {
				k = 1
			}
			capitals -= c.N * float64(k)
		}
	}
	for _, c := range t.Counts(corpus.Word).Top(-1) {
		words += c.N * float64(len(c.Key))
	}
	return min(max(capitals/max(words, 1), 0), 1)
}
