package corpus

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

// countWord counts the word that begins at i.
func (c *counter) countWord(src []byte, i int, spaced bool) int {
	j := i + 1
	for kinds[src[j]] <= kindDigit {
		j++
	}
	lo, hi := load(src, i, min(j-i, 16))
	t := c.lex.word(lo, hi, j-i)
	c.strokes(src[i:j])
	if t != 0 {
		c.words[t]++
	} else {
		t = c.countName(src[i:j])
		if j-i <= 8 {
			c.names.add(lo, c.files)
		}
	}
	c.follow(t, spaced)
	return j
}

// strokes counts the strokes of a word or number. Runs of one class are
// counted at once.
func (c *counter) strokes(word []byte) {
	for i := 0; i < len(word); {
		class := classes[word[i]]
		switch {
		case class == classOther:
			c.endRun()
			i += c.letter(word[i:])
			continue
		case class > classBreak: // a mark
			c.mark(word[i])
			i++
			continue
		}
		c.endRun()
		start := i
		for i < len(word) && classes[word[i]] == class {
			c.symbols[word[i]]++
			i++
		}
		c.class(int(class))
		if i-start > 1 {
			c.class(int(class))
			c.triples[c.context<<6|int(class)] += uint64(i - start - 2)
		}
	}
}

// countName counts the shape of a name and the words in it.
func (c *counter) countName(name []byte) token {
	var shape uint64
	elements, last, lower := 0, elementNone, false
	length, form, prev := 0, formLower, 0
	for _, b := range name {
		e := element(b)
		if e != last || e == elementUnderscore {
			shape |= uint64(e) << (3 * elements & 63)
			elements++
		}
		if length > 0 && (e > elementUpper || e == elementUpper && last == elementLower) {
			c.endOfWord(prev, form, length)
			length, prev = 0, 0
		}
		switch {
		case e > elementUpper:
		case length == 0 && e == elementLower:
			form = formLower
		case length == 0:
			form = formUpper
		case e == elementLower && form == formUpper:
			form = formCapital
		}
		if e <= elementUpper {
			lower = lower || e == elementLower
			letter := int(b & 31)
			c.letters[prev<<5|letter]++
			prev = letter
			length++
		}
		last = e
	}
	if length > 0 {
		c.endOfWord(prev, form, length)
	}
	if elements <= 20 {
		c.shapes.add(shape, c.files)
	}
	return classOfName(name, lower)
}

func classOfName(name []byte, lower bool) token {
	switch {
	case element(name[0]) != elementUpper:
		return tokenName
	case lower || len(name) == 1:
		return tokenCapital
	}
	return tokenUpper
}

func (c *counter) endOfWord(last int, f form, length int) {
	c.letters[last<<5]++
	c.lengths[f][min(length, maxLength-1)]++
}

func element(b byte) int {
	switch classes[b] {
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

// countNumber counts the number literal that begins at i: digits, letters and
// underscores, a point before a digit, and a sign after the e of an exponent.
func (c *counter) countNumber(src []byte, i int, spaced bool) int {
	j := i + 1
	hex := src[i] == '0' && src[j]|0x20 == 'x'
	for kinds[src[j]] <= kindDigit || c.goesOn(src, j, hex) {
		j++
	}
	c.strokes(src[i:j])
	if j-i <= 8 {
		c.numbers.add(numberShape(src[i:j], hex), c.files)
	}
	c.follow(tokenNumber, spaced)
	return j
}

func (c *counter) goesOn(src []byte, j int, hex bool) bool {
	digit := kinds[src[j+1]] == kindDigit
	switch src[j] {
	case '.':
		return digit && src[j-1] != '.'
	case '+', '-':
		return digit && !hex && src[j-1]|0x20 == 'e'
	}
	return false
}

// numberShape packs a literal with digits as 0 and hexadecimal letters as f.
func numberShape(number []byte, hex bool) (packed uint64) {
	for i, b := range number {
		switch element(b) {
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
