package code

import "bytes"

// lineAtWord is a comment to the end of the line that begins only where a word
// may: after space, a bracket or a semicolon.
func lineAtWord(open string) rule {
	read := line(open).read
	return rule{open, func(v *viewer, open string) bool {
		switch v.peek(-1) {
		case 0, ' ', '\t', '\n', '\r', ';', '(', ')', '`':
			return read(v, open)
		}
		return false
	}}
}

// pythonString is a string of Python; after f or t it holds code.
func pythonString(quote string, far reach) rule {
	return rule{quote, func(v *viewer, quote string) bool {
		prefix := bytes.ToLower(v.wordBefore())
		v.keep(len(quote))
		if len(prefix) <= 2 && bytes.ContainsAny(prefix, "ft") && len(bytes.Trim(prefix, "ftr")) == 0 {
			v.closed(quote, far, '\\', inside{"{", '}'})
		} else {
			v.closed(quote, far, '\\')
		}
		return true
	}}
}

// escapedByte passes over a backslash and what it takes the meaning from.
func escapedByte() rule {
	return rule{`\`, func(v *viewer, _ string) bool {
		v.keep(2)
		return true
	}}
}

// shellString is a string of the shell between double quotes; expansions in it
// are code.
func shellString() rule {
	return rule{`"`, func(v *viewer, _ string) bool {
		v.keep(1)
		v.expansions(len(v.src), `"`)
		v.keep(1)
		return true
	}}
}

// expansions reads a literal with the expansions of the shell in it up to the
// quote, or to end where that is "".
func (v *viewer) expansions(end int, quote string) {
	i := v.i
	for i < end && (quote == "" || v.src[i] != quote[0]) {
		switch c := v.src[i]; {
		case c == '\\':
			i += 2
			continue
		case c == '$' && v.depth < maxDepth:
			if n := expansion(v.src[i:]); n > 0 {
				v.body(i)
				v.expand(n)
				i = v.i
				continue
			}
		case c == '`' && v.depth < maxDepth && quote != "" && bytes.IndexByte(v.src[i+1:v.lineEnd(i)], '`') >= 0:
			v.body(i)
			v.hole(inside{"`", '`'})
			i = v.i
			continue
		}
		i++
	}
	v.body(min(i, len(v.src)))
}

// expansion is the length of the expansion that s begins with, up to the code
// in it: "$name" 5, "${" 2, "$(" 2, 0 for none.
func expansion(s []byte) int {
	if len(s) < 2 {
		return 0
	}
	switch c := s[1]; {
	case c == '{' || c == '(':
		return 2
	case isLetter(c) || c == '_':
		n := 2
		for n < len(s) && (isLetter(s[n]) || isDigit(s[n]) || s[n] == '_') {
			n++
		}
		return n
	case isDigit(c) || bytes.IndexByte([]byte("@*#?$!-"), c) >= 0:
		return 2
	}
	return 0
}

func (v *viewer) expand(n int) {
	switch v.peek(1) {
	case '{':
		v.hole(inside{"${", '}'})
	case '(':
		v.hole(inside{"$(", ')'})
	default:
		v.keep(n)
	}
}

// dollarQuote is a string of the shell with the escapes of C: $'\n'.
func dollarQuote() rule {
	return rule{"$'", func(v *viewer, open string) bool {
		v.keep(len(open))
		v.closed("'", manyLines, '\\')
		return true
	}}
}

// document is a literal on the lines after the one that opens it.
type document struct {
	end      string // the line that ends it
	indented bool   // that line may be indented
	plain    bool   // nothing in it is special
}

// shellDocument is a here-document of the shell (POSIX, Shell Command
// Language, 2.7.4). What opens it stays; its lines are read at the line's end.
func shellDocument() rule {
	return rule{"<<", func(v *viewer, _ string) bool {
		n := 2
		if v.peek(n) == '<' || v.peek(-1) == '<' {
			return false
		}
		d := document{}
		if v.peek(n) == '-' {
			d.indented = true
			n++
		}
		for v.peek(n) == ' ' {
			n++
		}
		quote := v.peek(n)
		if quote == '\'' || quote == '"' || quote == '\\' {
			d.plain = true
			n++
		}
		return v.documentNamed(n, quote, d)
	}}
}

// documentNamed reads what opens a document, whose end is named n bytes on.
func (v *viewer) documentNamed(n int, quote byte, d document) bool {
	start := n
	for isWord(v.peek(n)) {
		n++
	}
	if n == start || isDigit(v.peek(start)) {
		return false
	}
	d.end = string(v.src[v.i+start : v.i+n])
	if quote != 0 && quote != '\\' && v.peek(n) == quote {
		n++
	}
	v.keep(n)
	v.documents = append(v.documents, d)
	return true
}

// documentBodies reads the lines of the documents that the line opened.
func documentBodies(read func(v *viewer, d document, end int)) rule {
	return rule{"\n", func(v *viewer, _ string) bool {
		if len(v.documents) == 0 {
			return false
		}
		v.keep(1)
		documents := v.documents
		v.documents = nil
		for _, d := range documents {
			end := v.documentEnd(d)
			if d.plain {
				v.body(end)
			} else {
				read(v, d, end)
			}
			if last := v.out[len(v.out)-1]; last != '\n' {
				v.out = append(v.out, '\n')
			}
			v.keep(v.lineEnd(v.i) - v.i)
			if len(documents) > 1 {
				v.keep(1)
			}
		}
		return true
	}}
}

// documentEnd is the beginning of the line that ends the document.
func (v *viewer) documentEnd(d document) int {
	for i := v.i; i < len(v.src); {
		next := v.lineEnd(i)
		text := bytes.TrimRight(v.src[i:next], "\r")
		if d.indented {
			text = bytes.TrimLeft(text, " \t")
		}
		if string(text) == d.end {
			return i
		}
		i = next + 1
	}
	return len(v.src)
}

func shellBody(v *viewer, _ document, end int) { v.expansions(end, "") }
