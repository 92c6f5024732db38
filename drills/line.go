package drills

import (
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
	d := g.drill(k, symbolsOf(l.block(rng)), true)
	d.Language = l.name
	return d
}

// teller puts names and numbers in the place of the classes of tokens, and
// comes back to names that it gave before, as code does.
type teller struct {
	*namer
	said map[string][]string
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
			b.WriteString(t.word("a", rng))
		default:
			b.WriteString(tok.Text)
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
