package drills

import (
	"math"
	"math/rand/v2"
	"strings"

	"underlay/corpus"
	"underlay/drills/board"
)

// addSpeech makes the languages of the mix ready.
func (g *Generator) addSpeech() {
	for _, p := range g.mix.Leaves() {
		if len(p.Table.Counts(corpus.Start)) == 0 {
			continue // a table of keys has no lines
		}
		g.speech = append(g.speech, newLanguage(p.Table, g.typed))
		g.choose.add(p.Weight)
	}
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
	i := g.choose.draw(rng)
	if i < 0 {
		return Drill{}
	}
	l := g.speech[i]
	var t told
	if len(plan) == 0 {
		t = l.usual(rng)
	} else {
		t = l.bringing(plan, rng)
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
	const strength = 4
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
	for s := range t.Symbols() {
		if _, ok := board.Symbol(s).Rune(); ok {
			known += t.Symbols()[s]
		}
	}
	l.seldom, l.usually = map[rune]float64{}, map[rune]float64{}
	for r, n := range got {
		l.usually[r] = n / texts
	}
	for s, n := range t.Symbols() {
		if r, ok := board.Symbol(s).Rune(); ok && known > 0 {
			l.seldom[r] = math.Log((n/known*all + little) / (got[r] + little))
		}
	}
}

// teller puts names and numbers in the place of the classes of tokens, and
// comes back to names that it gave before, as code does.
type teller struct {
	*namer
	said   map[string][]string
	bodies []span
	shout  bool // words of the language in capitals
}

// own is a token that stands for itself.
func (t *teller) own(text string) string {
	if t.shout && word(text) {
		return strings.ToUpper(text)
	}
	return text
}

func (t *teller) tell(b *strings.Builder, line []corpus.Token, rng *rand.Rand) {
	for i, tok := range line {
		if tok.Spaced && i > 0 {
			b.WriteByte(' ')
		}
		switch tok.Text {
		case corpus.AnyName, corpus.CapitalName, corpus.UpperName:
			b.WriteString(t.again(tok.Text, rng))
		case corpus.AnyNumber:
			b.WriteString(t.literal(rng))
		case corpus.Body:
			from := b.Len()
			b.WriteString(t.word("a", rng))
			t.bodies = append(t.bodies, span{from, b.Len()})
		default:
			b.WriteString(t.own(tok.Text))
		}
	}
	b.WriteByte('\n')
}

func (t *teller) again(class string, rng *rand.Rand) string {
	if said := t.said[class]; len(said) > 0 && rng.IntN(3) == 0 {
		return said[rng.IntN(len(said))]
	}
	name := t.name(class, rng)
	t.said[class] = append(t.said[class], name)
	return name
}
