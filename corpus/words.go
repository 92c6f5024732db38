package corpus

// countWord counts the word or number that begins at i, and returns where it
// ends.
func (c *tokens) countWord(src []byte, i int, first kind, spaced uint16) int {
	j := i + 1
	for c.kinds[src[j]] <= kindDigit {
		j++
	}
	if first == kindDigit {
		j = c.endOfNumber(src, i, j)
	}
	c.edges(src[i:j])
	if j-i > 16 {
		t := c.tokenOf(src[i:j], first)
		c.spelled.add(src[i:j], t, 1)
		c.follow(t, spaced)
		return j
	}
	lo, hi := load(src, i, j-i)
	s := c.written.at(lo, hi)
	if s.n == 0 {
		s.token = c.tokenOf(src[i:j], first)
	}
	s.n++
	if s.last != c.files {
		s.last = c.files
		s.files++
	}
	c.follow(s.token, spaced)
	if 2*c.written.used >= len(c.written.slots) {
		c.settle(c.written.grow())
	}
	return j
}

// edges counts the classes across the edges of a word; what is inside is
// counted as it is spelled.
func (c *tokens) edges(word []byte) {
	c.class(int(c.classes[word[0]]))
	if n := len(word); n > 1 {
		c.class(int(c.classes[word[1]]))
		c.context = int(c.classes[word[n-2]])<<6 | int(c.classes[word[n-1]])
	}
}

// endOfNumber is the end of the number from i on, of which digits, letters and
// underscores end at j: a point before a digit goes on, and a sign after the e
// of an exponent.
func (c *tokens) endOfNumber(src []byte, i, j int) int {
	hex := src[i] == '0' && src[i+1]|0x20 == 'x'
	for c.goesOn(src, j, hex) {
		j++
		for c.kinds[src[j]] <= kindDigit {
			j++
		}
	}
	return j
}

func (c *tokens) goesOn(src []byte, j int, hex bool) bool {
	if c.kinds[src[j+1]] != kindDigit {
		return false
	}
	switch src[j] {
	case '.':
		return true
	case '+', '-':
		return !hex && src[j-1]|0x20 == 'e'
	}
	return false
}

// tokenOf is the token that a word or number is.
func (c *tokens) tokenOf(word []byte, first kind) token {
	if first == kindDigit {
		return tokenNumber
	}
	if t := c.lex.word(word); t != 0 {
		return t
	}
	if c.classes[word[0]] != classUpper {
		return tokenName
	}
	for _, b := range word {
		if c.classes[b] == classLower {
			return tokenCapital
		}
	}
	if len(word) == 1 {
		return tokenCapital
	}
	return tokenUpper
}
