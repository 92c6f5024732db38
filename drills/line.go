package drills

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"underlay/corpus"
	"underlay/corpus/code"
	"underlay/drills/board"
)

// speech is the languages of a mix.
type speech struct {
	languages []*language
	sampler   // of a language for the next text, so that its strokes have their share
}

// readySpeech makes the languages of the mix ready.
func (g *Generator) readySpeech() speech {
	var out speech
	languages := code.All()
	for _, p := range g.mix.Leaves() {
		if len(p.Table.Counts(corpus.Start)) == 0 {
			continue // a table of keys has no lines
		}
		if l := newLanguage(p.Table, languages.Named(p.Table.Language), g.typed); l.strokes > 0 {
			out.languages = append(out.languages, l)
			out.add(p.Weight / l.strokes)
		}
	}
	return out
}

// typed tells whether every character of a text may be asked for.
func (g *Generator) typed(text string) bool {
	for _, r := range text {
		if _, ok := g.asks[board.SymbolOf(r)]; !ok {
			return false
		}
	}
	return true
}

// line makes a drill of a code-like line; where it opens a block, the lines up
// to its end come with it, so that all brackets are balanced.
func (g *Generator) line(k Kind, plan []want, rng *rand.Rand) Drill {
	speech := g.speech()
	i := speech.draw(rng)
	if i < 0 {
		return Drill{}
	}
	l := speech.languages[i]
	var t told
	if len(plan) == 0 {
		t = l.usual(rng)
	} else {
		t = l.bringing(plan, rng)
	}
	if strings.TrimSpace(t.text) == "" {
		return Drill{} // nothing of the language can be typed
	}
	d := g.drill(k, symbolsOf(t.text), true)
	d.Language = l.name
	return d
}

// told is the text of a line or a block.
type told struct {
	text   string
	bodies []span // of strings, in bytes
}

// usual draws a text so that its symbols come as often as in the table: of a
// few texts, one that has more of what else comes too seldom is likelier.
func (l *language) usual(rng *rand.Rand) told {
	const few = 3
	var by sampler
	var all [few]told
	for i := range all {
		all[i] = l.block(rng)
		by.add(l.missing(all[i].text))
	}
	return all[by.draw(rng)]
}

// missing is how much a text has of what comes too seldom.
func (l *language) missing(text string) float64 {
	if len(l.seldom) == 0 || text == "" {
		return 1
	}
	sum := 0.0
	for _, r := range text {
		sum += l.seldom[r]
	}
	const strength = 8
	return math.Exp(strength * sum / float64(len(text)))
}

// addSeldom compares what texts bring with the table: for each character the
// logarithm of the ratio, 0 where little is known.
func (l *language) addSeldom(t *corpus.Table) {
	const texts, little = 200, 8
	rng := rand.New(rand.NewPCG(1, 2))
	got, all, known := map[rune]float64{}, 0.0, 0.0
	for range texts {
		for _, r := range l.block(rng).text {
			got[r]++
			all++
		}
	}
	l.strokes = all / texts
	symbols := t.Counts(corpus.Symbol).Top(-1)
	for _, c := range symbols {
		if _, ok := board.Symbol(c.Key).Rune(); ok {
			known += c.N
		}
	}
	l.seldom, l.usually = map[rune]float64{}, map[rune]float64{}
	for r, n := range got {
		l.usually[r] = n / texts
	}
	for _, c := range symbols {
		if r, ok := board.Symbol(c.Key).Rune(); ok && known > 0 {
			l.seldom[r] = math.Log((c.N/known*all + little) / (got[r] + little))
		}
	}
}

// teller puts names and numbers in the place of the classes of tokens, and
// comes back to names that it gave before, as code does.
type teller struct {
	*namer
	rng     *rand.Rand
	text    strings.Builder
	said    map[string][]string // names, by their class and role
	again   int                 // one name of so many is one that was said before
	bodies  []span
	count   string // what the loop of this line counts with
	shout   bool   // words of the language in capitals
	grammar code.Grammar
}

func newTeller(l *language, rng *rand.Rand) *teller {
	again := 3
	if l.walks == 1 {
		again = 12 // prose comes back to a word less often
	}
	return &teller{namer: l.names, rng: rng, said: map[string][]string{}, again: again, shout: rng.Float64() < l.shouts, grammar: l.grammar}
}

// tell writes a line.
func (t *teller) tell(line []corpus.Token) {
	t.count = ""
	for i, tok := range line {
		if tok.Spaced && i > 0 {
			t.text.WriteByte(' ')
		}
		from := t.text.Len()
		t.text.WriteString(t.spelled(line, i))
		if tok.Text == corpus.Body && !t.character(line, i) {
			t.bodies = append(t.bodies, span{from, t.text.Len()})
		}
	}
	t.text.WriteByte('\n')
}

// spelled is what stands for the token of index i.
func (t *teller) spelled(line []corpus.Token, i int) string {
	switch s := line[i].Text; {
	case s == corpus.AnyNumber:
		return t.literal(t.rng)
	case operandClass(s):
		return t.named(line, i)
	case t.character(line, i):
		return string(t.spell(1, t.rng))
	case s == corpus.Body:
		return t.word("a", t.rng)
	case t.shout && word(s):
		return strings.ToUpper(s)
	default:
		return s
	}
}

// character tells whether the token of index i is the one character of a literal.
func (t *teller) character(line []corpus.Token, i int) bool {
	return t.grammar.Characters && line[i].Text == corpus.Body && i > 0 && line[i-1].Text == "'"
}

// named gives the name for the token of index i: one that was there before in the
// same role, or a new one. Names of types and packages are passed over where code
// has none.
func (t *teller) named(line []corpus.Token, i int) string {
	if f, ok := t.flag(line, i); ok {
		return f
	}
	if t.count != "" && counts(line, i) {
		return t.count
	}
	name := t.newOrSaid(line, i)
	if line[0].Text == "for" && t.count == "" && i+1 < len(line) && assigns(line[i+1].Text) {
		t.count = name
	}
	return name
}

// counts tells whether the name at index i begins the second or third part of a loop.
func counts(line []corpus.Token, i int) bool {
	before := line[i-1].Text
	return before == ";" || before == "++" && line[i-2].Text == ";"
}

func (t *teller) newOrSaid(line []corpus.Token, i int) string {
	class, as := line[i].Text, role(line, i)
	said := t.said[class+as]
	beside := i > 0 && line[i-1].Text == "," // then it is another one
	if len(said) > 0 && !beside && t.rng.IntN(t.again) == 0 {
		return said[t.rng.IntN(len(said))]
	}
	name := t.name(class, t.rng)
	for range 5 {
		if t.suits(name, line, i) && !t.saidElse(class, as, name, beside) {
			break
		}
		name = t.name(class, t.rng)
	}
	if !t.fixed(name) && !slices.Contains(said, name) {
		t.said[class+as] = append(said, name)
	}
	return name
}

// role tells what the name at index i is used as: something called, a member, or
// neither. A name keeps its role, as nearly always in code.
func role(line []corpus.Token, i int) string {
	switch {
	case i+1 < len(line) && line[i+1].Text == "(" && !line[i+1].Spaced:
		return "("
	case i > 0 && (line[i-1].Text == "." || line[i-1].Text == "->" || line[i-1].Text == "::") && !line[i].Spaced:
		return "."
	}
	return ""
}

// saidElse tells whether a name was said in another role; or beside others in a
// list, in this one either.
func (t *teller) saidElse(class, as, name string, beside bool) bool {
	return slices.ContainsFunc([]string{"", "(", "."}, func(r string) bool {
		return (r != as || beside) && slices.Contains(t.said[class+r], name)
	})
}

// suits tells whether a name suits its place: the blank one is bound and never used, a
// package has a member behind it, a type stands behind a name or a bracket, or is called to convert, a
// utility begins a command of the shell.
func (t *teller) suits(name string, line []corpus.Token, i int) bool {
	var before, after corpus.Token
	if i > 0 {
		before = line[i-1]
	}
	if i+1 < len(line) {
		after = line[i+1]
	}
	switch {
	case name == "_":
		return after.Text == "," || assigns(after.Text) || after.Text == "in" || after.Text == "=>"
	case slices.Contains(t.grammar.Utilities, name):
		return commands(line, i)
	case slices.Contains(t.grammar.Packages, name):
		return (after.Text == "." || after.Text == "::") && !after.Spaced
	case slices.Contains(t.grammar.Types, name):
		return after.Text == "(" || before.Text == "]" || before.Text == "*" || before.Text == "<" ||
			before.Text == ":" && line[i].Spaced || before.Text == "->" || operandClass(before.Text) && line[i].Spaced
	}
	return true
}

// fixed tells whether a name is one that the language gives, which is not taken
// for something of one's own.
func (t *teller) fixed(name string) bool {
	return slices.Contains(t.grammar.Types, name) || slices.Contains(t.grammar.Packages, name) || slices.Contains(t.grammar.Utilities, name)
}
