package drills

import (
	"math/rand/v2"
	"slices"
	"strconv"

	"underlay/corpus"
	"underlay/corpus/code"
)

// phrases are the expressions of a language by the tokens around them.
type phrases struct {
	by map[[2]string]*phraseList
}

type phraseList struct {
	list [][]corpus.Token
	sampler
}

// slotOf returns the tokens around a slot.
func slotOf(line []corpus.Token, s span) [2]string {
	after := corpus.LineBreak
	if s.to < len(line) {
		after = line[s.to].Text
	}
	return [2]string{line[s.from-1].Text, after}
}

func (p *phrases) add(line []corpus.Token, n float64) {
	for _, s := range spans(line) {
		key := slotOf(line, s)
		if p.by[key] == nil {
			p.by[key] = &phraseList{}
		}
		l := p.by[key]
		l.list = append(l.list, line[s.from:s.to])
		l.add(n)
	}
}

// addFree makes ready what lines are made of that are none of the shapes:
// which lengths they have, and phrases to make a shape longer.
func (l *language) addFree(t *corpus.Table) {
	lengths := map[int]float64{}
	for _, c := range t.Counts(corpus.Tokens).Top(-1) {
		if n, err := strconv.Atoi(c.Key); err == nil {
			lengths[n] = c.N
		}
	}
	l.phrases = phrases{by: map[[2]string]*phraseList{}}
	for _, s := range l.shapes {
		lengths[len(s.line)] -= s.count
		l.phrases.add(s.line, s.count)
	}
	for n := range 30 {
		l.lengths.add(max(lengths[n], 0))
	}
	for i, s := range l.shapes {
		if l.alone(s) && (len(spans(s.line)) > 0 || row(s.line)) {
			l.roomy = append(l.roomy, i)
		}
	}
	for n := range 30 {
		l.grown = append(l.grown, l.growing(n))
	}
}

// grow makes a line that is none of the shapes: a shape whose expressions are
// replaced by longer ones, until it is as long as such lines are.
func (l *language) grow(rng *rand.Rand) (shape, bool) {
	n := l.lengths.draw(rng)
	if n < 1 || len(l.roomy) == 0 {
		return shape{}, false
	}
	s := l.shapes[l.roomy[l.grown[n].draw(rng)]]
	line := slices.Clone(s.line)
	for range 12 {
		if len(line) >= n {
			break
		}
		line = l.longer(line, n, rng)
	}
	return shape{line: line, opens: s.opens}, true
}

// growing weighs the shapes that can grow to n tokens: the nearer to it, the
// likelier.
func (l *language) growing(n int) sampler {
	var by, even sampler
	for _, i := range l.roomy {
		even.add(1)
		if more := n - len(l.shapes[i].line); more < 0 {
			by.add(0)
		} else {
			by.add(1 / float64(1+more))
		}
	}
	if by.total() == 0 {
		return even
	}
	return by
}

// longer makes a line longer by one step: it replaces an expression by a
// longer one, goes on behind it, or adds to a row of values.
func (l *language) longer(line []corpus.Token, n int, rng *rand.Rand) []corpus.Token {
	if row(line) {
		return append(line, corpus.Token{Text: line[0].Text, Spaced: true}, corpus.Token{Text: ","})
	}
	all := spans(line)
	if len(all) == 0 {
		return line
	}
	s := all[rng.IntN(len(all))]
	var grown []corpus.Token
	if rng.IntN(3) == 0 {
		grown = l.replaced(line, s, rng)
	} else {
		grown = slices.Concat(line[:s.to], l.goesOn(line, s, rng), line[s.to:])
	}
	if len(grown) > n+2 {
		return line
	}
	return grown
}

// row tells whether a line is a row of values with commas.
func row(line []corpus.Token) bool {
	for i, t := range line {
		if i%2 == 0 && !operandClass(t.Text) || i%2 == 1 && t.Text != "," {
			return false
		}
	}
	return len(line)%2 == 0 && len(line) > 0
}

// replaced puts another expression in a slot, if it is a longer one.
func (l *language) replaced(line []corpus.Token, s span, rng *rand.Rand) []corpus.Token {
	p := l.phrases.by[slotOf(line, s)]
	if p == nil {
		return line
	}
	phrase := p.list[p.draw(rng)]
	if len(phrase) <= s.to-s.from {
		return line
	}
	grown := slices.Concat(line[:s.from], phrase, line[s.to:])
	grown[s.from].Spaced = line[s.from].Spaced
	return grown
}

// goesOn draws what an expression goes on with behind a slot, by what follows
// its last token in lines that are none of the shapes: a member, an index, a
// call, an operator with its operand, or one more argument.
func (l *language) goesOn(line []corpus.Token, s span, rng *rand.Rand) []corpus.Token {
	next := l.next[line[s.to-1].Text]
	if next == nil {
		return nil
	}
	inside := s.to < len(line) && isCloser(line[s.to].Text)
	literal := line[s.to-1].Text == corpus.AnyNumber || isQuote(line[s.to-1].Text) // which has no members and is not called
	for range 6 {
		t := next.tokens[next.draw(rng)]
		switch {
		case literal && !t.Spaced && (isOpener(t.Text) || t.Text == "."):
		case t.Text == "." && l.grammar.Form == code.Styles:
		case !called(line[s.to-1].Text, t.Text):
		case isOpener(t.Text) && !t.Spaced:
			if v, ok := l.value(t.Text, rng); ok {
				return append([]corpus.Token{t}, append(v, corpus.Token{Text: closerOf(t.Text)})...)
			}
		case (t.Text == "," && inside || joinsTokens(t, corpus.Token{Spaced: true})) && sensible(line, s, t.Text):
			if v, ok := l.value(t.Text, rng); ok && v[0].Spaced {
				return append([]corpus.Token{t}, v...)
			}
		case t.Text == "." && !t.Spaced:
			if v, ok := l.value(t.Text, rng); ok && len(v) == 1 && v[0].Text != corpus.AnyNumber && operandClass(v[0].Text) {
				return append([]corpus.Token{t}, v...)
			}
		}
	}
	return nil
}

// sensible tells whether an operator makes sense behind a slot: comparisons
// where something is decided or kept, and one of them at a time; && and || to
// join what is so or not; nothing where only a call or a constant may stand; no
// comma where something is decided.
func sensible(line []corpus.Token, s span, op string) bool {
	before := line[s.from-1].Text
	decides := before == "if" || before == "while" || before == "elif" || before == "return" || before == "unless" ||
		before == "(" && s.from > 1 && word(line[s.from-2].Text) && !atomWord(line[s.from-2].Text)
	if op == "," {
		return !decides && !inCondition(line, s.from) && !inIndex(line, s.from)
	}
	compared := slices.ContainsFunc(line[s.from:s.to], func(t corpus.Token) bool { return compares(t.Text) })
	switch {
	case slices.Contains([]string{"defer", "go", "case", "new", "delete", "throw", "raise", "del", "await", "range", ":"}, before):
		return false
	case compares(op):
		return decides && !compared
	case op == "&&" || op == "||" || op == "and" || op == "or":
		return decides && (compared || before != "return")
	}
	return !isQuote(line[s.to-1].Text) || op == "+" || op == "++" || op == ".."
}

// called tells whether a bracket may stand behind a token without a space: what
// was called is not called once more, and curly ones stand behind a type.
func called(before, bracket string) bool {
	switch bracket {
	case "(":
		return before != ")"
	case "{":
		return before == corpus.CapitalName
	}
	return true
}

// inCondition tells whether the innermost brackets around the token of index i
// hold the condition of a statement.
func inCondition(line []corpus.Token, i int) bool {
	i = bracketAround(line, i)
	return i > 0 && conditions(line[i-1].Text)
}

// inIndex tells whether they hold an index.
func inIndex(line []corpus.Token, i int) bool {
	i = bracketAround(line, i)
	return i > 0 && line[i].Text == "[" && !line[i].Spaced
}

// bracketAround returns where the innermost brackets around the token of index i open,
// -1 where there are none.
func bracketAround(line []corpus.Token, i int) int {
	depth := 0
	for i--; i >= 0; i-- {
		switch {
		case isCloser(line[i].Text):
			depth++
		case isOpener(line[i].Text) && depth == 0:
			return i
		case isOpener(line[i].Text):
			depth--
		}
	}
	return -1
}

func compares(op string) bool {
	switch op {
	case "==", "!=", "<", ">", "<=", ">=", "===", "!==", "~=", "in", "is", "/=":
		return true
	}
	return false
}

// value draws an operand that follows a token.
func (l *language) value(after string, rng *rand.Rand) ([]corpus.Token, bool) {
	next := l.next[after]
	if next == nil {
		return nil, false
	}
	for range 6 {
		t := next.tokens[next.draw(rng)]
		switch {
		case operandClass(t.Text) || atomWord(t.Text):
			return []corpus.Token{t}, true
		case t.Text == `"`:
			return []corpus.Token{t, {Text: corpus.Body}, {Text: t.Text}}, true
		}
	}
	return nil, false
}
