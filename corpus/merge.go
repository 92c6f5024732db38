package corpus

// merge adds what another counter of the same language has counted.
func (c *counter) merge(o *counter) {
	c.files += o.files
	c.bytes += o.bytes
	c.lines += o.lines
	for r, n := range o.runes {
		c.runes[r] += n
	}
	sum(c.symbols[:], o.symbols[:])
	sum(c.triples, o.triples)
	sum(c.letters[:], o.letters[:])
	for f := range c.lengths {
		sum(c.lengths[f][:], o.lengths[f][:])
	}
	sum(c.single[:], o.single[:])
	sum(c.words[:], o.words[:])
	sum(c.perLine[:], o.perLine[:])
	sum(c.columns[:], o.columns[:])
	sum(c.indents.units[:], o.indents.units[:])
	sum(c.indents.depths[:], o.indents.depths[:])
	sum(c.indents.steps[:], o.indents.steps[:])
	c.names.merge(o.names.slots)
	c.shapes.merge(o.shapes.slots)
	c.numbers.merge(o.numbers.slots)
	c.runs.merge(o.runs.slots)
	c.mergeTokens(o)
}

func sum(to, from []uint64) {
	for i, n := range from {
		to[i] += n
	}
}

// mergeTokens adds what is counted by token: the numbers of tokens of several
// marks are each counter's own.
func (c *counter) mergeTokens(o *counter) {
	ours := make([]token, maxTokens)
	for i := range ours {
		ours[i] = token(i)
	}
	for key, theirs := range o.lex.marksID {
		ours[theirs] = c.lex.marksToken(key)
	}
	coded := func(t uint16) uint16 { return uint16(ours[t>>1])<<1 | t&1 }
	for t, n := range o.starts {
		c.starts[ours[t]] += n
		c.ends[ours[t]] += o.ends[t]
	}
	for _, s := range o.next.slots {
		if s.key != 0 {
			key := uint64(ours[s.key>>16])<<16 | uint64(coded(uint16(s.key)))
			c.next.merge([]slot{{key, s.n, s.last, s.files}})
		}
	}
	for _, s := range o.commonly.slots {
		if s.key == 0 {
			continue
		}
		line := append([]uint16(nil), o.commonly.lines[s.key]...)
		for i := range line {
			line[i] = coded(line[i])
		}
		key := lineKey(line)
		c.commonly.merge([]slot{{key, s.n, s.last, s.files}})
		c.commonly.remember(key, line)
	}
}
