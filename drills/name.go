package drills

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"unicode"

	"underlay/corpus"
)

// namer makes names and numbers as a language has them: the commonest ones as
// they are, all others of letters that follow each other as in its words.
type namer struct {
	common  map[string]*texts // by class of token
	shapes  map[string]*texts
	lengths map[string]*follows // of words, by form: a, A, Aa
	letters map[rune]*runes     // what follows a letter; ' ' begins a word
	last    map[rune]float64    // share of a letter's occurrences that end a word
	digits  runes
	numbers []string
	number  sampler
	known   map[string]float64 // share of common names among the names of a class
	words   corpus.Counts      // of the language, which are no names
}

type texts struct {
	list []string
	sampler
}

type follows struct {
	lengths []int
	sampler
}

type runes struct {
	runes []rune
	sampler
}

func (r *runes) add(c rune, n float64) {
	r.runes = append(r.runes, c)
	r.sampler.add(n)
}

func newNamer(t *corpus.Table, typed func(string) bool) *namer {
	n := &namer{common: map[string]*texts{}, shapes: map[string]*texts{}, lengths: map[string]*follows{},
		letters: map[rune]*runes{}, last: map[rune]float64{}, known: map[string]float64{}, words: t.Counts(corpus.Word)}
	n.addLetters(t, typed)
	n.addLengths(t)
	n.addShapes(t, typed)
	n.addCommon(t, typed)
	n.addNumbers(t, typed)
	return n
}

func (n *namer) addLetters(t *corpus.Table, typed func(string) bool) {
	for _, c := range t.Counts(corpus.Letter).Top(-1) {
		pair := []rune(c.Key)
		if len(pair) == 2 && pair[1] == ' ' {
			n.last[pair[0]] = c.N
			continue
		}
		if len(pair) != 2 || !typed(string(pair[1])) || pair[0] != ' ' && !typed(string(pair[0])) {
			continue
		}
		if n.letters[pair[0]] == nil {
			n.letters[pair[0]] = &runes{}
		}
		n.letters[pair[0]].add(pair[1], c.N)
	}
	for r, ends := range n.last { // of a letter's occurrences, the share that ends a word
		if next := n.letters[r]; next != nil {
			n.last[r] = ends / (ends + next.total())
		}
	}
}

func (n *namer) addLengths(t *corpus.Table) {
	for _, c := range t.Counts(corpus.Length).Top(-1) {
		form, length, _ := strings.Cut(c.Key, "\t")
		k, err := strconv.Atoi(length)
		if err != nil || k > 12 {
			continue // longer words make no better drills
		}
		if n.lengths[form] == nil {
			n.lengths[form] = &follows{}
		}
		n.lengths[form].lengths = append(n.lengths[form].lengths, k)
		n.lengths[form].add(c.N)
	}
}

func (n *namer) addShapes(t *corpus.Table, typed func(string) bool) {
	for _, c := range t.Counts(corpus.NameShape).Top(-1) {
		if !n.canShape(c.Key, typed) {
			continue
		}
		addText(n.shapes, classOf(c.Key), c.Key, c.N)
		n.known[classOf(c.Key)] += c.N
	}
}

// canShape tells whether the parts of a shape can be typed.
func (n *namer) canShape(s string, typed func(string) bool) bool {
	for _, r := range s {
		switch {
		case r == 'a' || r == 'A':
			if n.letters[' '] == nil || r == 'A' && !typed("E") {
				return false
			}
		case !typed(string(r)):
			return false
		}
	}
	return true
}

func (n *namer) addCommon(t *corpus.Table, typed func(string) bool) {
	for _, c := range t.Counts(corpus.Name).Top(-1) {
		if typed(c.Key) {
			addText(n.common, classOf(c.Key), c.Key, c.N)
		}
	}
	for class, all := range n.known {
		n.known[class] = 0
		if c := n.common[class]; c != nil && all > 0 {
			n.known[class] = min(c.total()/all, 1)
		}
	}
}

func (n *namer) addNumbers(t *corpus.Table, typed func(string) bool) {
	for _, d := range "0123456789" {
		if typed(string(d)) {
			n.digits.add(d, t.Symbols()[string(d)]+1)
		}
	}
	if len(n.digits.runes) == 0 {
		return
	}
	for _, c := range t.Counts(corpus.Number).Top(-1) {
		if typed(strings.Trim(c.Key, "0")) && len(c.Key) <= 10 {
			n.numbers = append(n.numbers, c.Key)
			n.number.add(c.N)
		}
	}
}

func addText(m map[string]*texts, class, text string, n float64) {
	if m[class] == nil {
		m[class] = &texts{}
	}
	m[class].list = append(m[class].list, text)
	m[class].add(n)
}

// classOf returns the class of token that a name, or its shape, belongs to.
func classOf(name string) string {
	first, upper := []rune(name)[0], true
	for _, r := range name {
		upper = upper && !unicode.IsLower(r)
	}
	switch {
	case !unicode.IsUpper(first):
		return corpus.AnyName
	case upper && len(name) > 1:
		return corpus.UpperName
	}
	return corpus.CapitalName
}

func (n *namer) can(class string) bool { return n.common[class] != nil || n.shapes[class] != nil }

// name makes a name of a class of token.
func (n *namer) name(class string, rng *rand.Rand) string {
	if c := n.common[class]; c != nil && (n.shapes[class] == nil || rng.Float64() < n.known[class]) {
		return c.list[c.draw(rng)]
	}
	s := n.shapes[class]
	name := n.fill(s.list[s.draw(rng)], rng)
	for range 3 {
		if len(name) <= longestName && n.words[name] == 0 {
			break
		}
		name = n.fill(s.list[s.draw(rng)], rng)
	}
	return name
}

// longestName is the length up to which names make good drills.
const longestName = 14

// fill puts words and digits in the place of the runs of a shape.
func (n *namer) fill(shape string, rng *rand.Rand) string {
	var b strings.Builder
	for i := 0; i < len(shape); i++ {
		switch c := shape[i]; {
		case c == 'A' && i+1 < len(shape) && shape[i+1] == 'a':
			b.WriteString(n.word("Aa", rng))
			i++
		case c == 'A' || c == 'a':
			b.WriteString(n.word(string(c), rng))
		case c == '0':
			for range 1 + rng.IntN(2) {
				b.WriteRune(n.digit(rng))
			}
		default:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// word makes a word of letters: in small letters, capitals, or with a capital.
func (n *namer) word(form string, rng *rand.Rand) string {
	length := 4
	if f := n.lengths[form]; f != nil {
		length = f.lengths[f.draw(rng)]
	}
	word := n.spell(length, rng)
	for range 3 {
		if n.ends(word, rng) && pronounceable(word) {
			break
		}
		word = n.spell(length, rng)
	}
	switch {
	case form == "A":
		return strings.ToUpper(string(word))
	case form == "Aa" && len(word) > 0:
		return strings.ToUpper(string(word[:1])) + string(word[1:])
	}
	return string(word)
}

// spell puts letters in a row as they follow each other in words.
func (n *namer) spell(length int, rng *rand.Rand) []rune {
	word := make([]rune, 0, length)
	for last := ' '; len(word) < length; {
		next := n.letters[last]
		if next == nil {
			next = n.letters[' ']
		}
		if next == nil {
			break
		}
		last = next.runes[next.draw(rng)]
		word = append(word, last)
	}
	return word
}

// ends tells by chance whether a word ends as words do.
func (n *namer) ends(word []rune, rng *rand.Rand) bool {
	return len(word) < 3 || rng.Float64() < 2*n.last[word[len(word)-1]]
}

// pronounceable tells whether there are no more than three consonants or
// vowels in a row.
func pronounceable(word []rune) bool {
	run, vowels := 0, false
	for i, r := range word {
		if v := strings.ContainsRune("aeiouy", r); i == 0 || v != vowels {
			run, vowels = 0, v
		}
		if run++; run > 3 {
			return false
		}
	}
	return vowels || len(word) < 3 || strings.ContainsAny(string(word), "aeiouy")
}

func (n *namer) digit(rng *rand.Rand) rune {
	if len(n.digits.runes) == 0 {
		return '0'
	}
	return n.digits.runes[n.digits.draw(rng)]
}

// literal makes a number literal.
func (n *namer) literal(rng *rand.Rand) string {
	i := n.number.draw(rng)
	if i < 0 {
		return string(n.digit(rng))
	}
	out := []rune(n.numbers[i])
	for j, r := range out {
		switch {
		case r == '0' && !(j == 0 && len(out) > 1 && !unicode.IsDigit(out[1]) && out[1] != '.'):
			out[j] = n.digit(rng)
		case r == 'f' && strings.HasPrefix(n.numbers[i], "0x"):
			out[j] = 'a' + rune(rng.IntN(6))
		}
	}
	if len(out) > 1 && out[0] == '0' && unicode.IsDigit(out[1]) {
		out[0] = '1' + rune(rng.IntN(9))
	}
	return string(out)
}
