package corpus

// spelled counts what is in words and numbers: triples of classes, letters of
// names, shapes.
type spelled struct {
	*alphabet
	triples []uint64 // those of tokens
	words   [maxTokens]uint64
	letters [32 * 32]uint64          // by two letters of names, 1 to 26; 0 is the edge of a word
	lengths [forms][maxLength]uint64 // words of names by form and length
	shapes  *tally                   // of names, three bits an element
	numbers *tally                   // shapes, packed
}

// maxLength is above the longest word of a name that is told from longer ones.
const maxLength = 21

func newSpelled(a *alphabet, triples []uint64) *spelled {
	return &spelled{alphabet: a, triples: triples, shapes: newTally(1 << 14), numbers: newTally(1 << 14)}
}

// form is how a word inside a name is written.
type form int

const (
	formLower   form = iota // name
	formUpper               // NAME
	formCapital             // Name
	forms
)

// The elements of a name's shape.
const (
	elementNone = iota
	elementLower
	elementUpper
	elementDigit
	elementUnderscore
	elementOther
)

// add counts n times a word or number, which is the given token.
func (s *spelled) add(word []byte, t token, n uint64) {
	for i := 2; i < len(word); i++ {
		s.triples[int(s.classes[word[i-2]])<<12|int(s.classes[word[i-1]])<<6|int(s.classes[word[i]])] += n
	}
	switch {
	case t > tokenNumber:
		s.words[t] += n
	case t < tokenNumber:
		s.name(word, n)
	case len(word) <= 8:
		s.numbers.at(s.numberShape(word)).n += n
	}
}

// name counts the shape of a name and the words in it.
func (s *spelled) name(name []byte, n uint64) {
	var shape uint64
	elements, last := 0, elementNone
	w := wordInName{}
	for _, b := range name {
		e := s.element(b)
		if e != last || e == elementUnderscore {
			shape |= uint64(e) << (3 * elements & 63)
			elements++
		}
		if e > elementUpper || e == elementUpper && last == elementLower {
			s.endWord(&w, n)
		}
		if e <= elementUpper {
			letter := int(b & 31)
			s.letters[w.prev<<5|letter] += n
			w.add(letter, e)
		}
		last = e
	}
	s.endWord(&w, n)
	if elements <= 20 {
		s.shapes.at(shape).n += n
	}
}

// wordInName is a word of a name as far as it is read.
type wordInName struct {
	prev, length int
	form         form
}

func (w *wordInName) add(letter, element int) {
	switch {
	case w.length == 0 && element == elementUpper:
		w.form = formUpper
	case w.length == 0:
		w.form = formLower
	case element == elementLower && w.form == formUpper:
		w.form = formCapital
	}
	w.prev = letter
	w.length++
}

func (s *spelled) endWord(w *wordInName, n uint64) {
	if w.length > 0 {
		s.letters[w.prev<<5] += n
		s.lengths[w.form][min(w.length, maxLength-1)] += n
	}
	*w = wordInName{}
}

func (s *spelled) element(b byte) int {
	switch s.classes[b] {
	case classLower:
		return elementLower
	case classUpper:
		return elementUpper
	case classDigit:
		return elementDigit
	case classOther:
		return elementOther
	}
	return elementUnderscore
}

// numberShape packs a literal with digits as 0 and hexadecimal letters as f.
func (s *spelled) numberShape(number []byte) (packed uint64) {
	hex := len(number) > 1 && number[0] == '0' && number[1]|0x20 == 'x'
	for i, b := range number {
		switch s.element(b) {
		case elementDigit:
			b = '0'
		case elementLower, elementUpper:
			b |= 0x20
			if hex && b <= 'f' {
				b = 'f'
			}
		}
		packed |= uint64(b) << (8 * i)
	}
	return packed
}

func (s *spelled) merge(o *spelled) {
	sum(s.words[:], o.words[:])
	sum(s.letters[:], o.letters[:])
	for f := range s.lengths {
		sum(s.lengths[f][:], o.lengths[f][:])
	}
	s.shapes.merge(o.shapes.slots)
	s.numbers.merge(o.numbers.slots)
}
