package code

import "bytes"

// rubyString is a string, command or regular expression of Ruby between equal
// quotes, with code inside it.
func rubyString(quote string) rule {
	return template(quote, manyLines, rubyHole())
}

// rubyPod is a comment from =begin to =end, both at the beginning of a line.
func rubyPod() rule {
	return rule{"=begin", func(v *viewer, _ string) bool {
		if before := v.peek(-1); before != 0 && before != '\n' {
			return false
		}
		v.comment(v.lineEnd(v.find(v.i, "\n=end")))
		return true
	}}
}

// rubyEnd is the line after which a program is data.
func rubyEnd() rule {
	return rule{"__END__\n", func(v *viewer, _ string) bool {
		if before := v.peek(-1); before != 0 && before != '\n' {
			return false
		}
		v.comment(len(v.src))
		return true
	}}
}

// rubyPercent is a literal such as %w[…], %q(…) or %r{…}.
func rubyPercent() rule {
	return rule{"%", func(v *viewer, _ string) bool {
		n := 1
		if bytes.IndexByte([]byte("qQwWiIrsx"), v.peek(1)) >= 0 && v.peek(1) != 0 {
			n = 2
		} else if !v.valueMayBegin() {
			return false
		}
		opening := v.peek(n)
		if opening == 0 || isWord(opening) || opening <= ' ' || n == 1 && bytes.IndexByte([]byte("([{<|!"), opening) < 0 {
			return false
		}
		holes := n == 1 || bytes.IndexByte([]byte("QWIrx"), v.peek(1)) >= 0
		v.keep(n + 1)
		v.balanced(opening, holes)
		return true
	}}
}

// rubyHole is the code in a string of Ruby.
func rubyHole() inside { return inside{"#{", '}'} }

// balanced reads the body of a literal up to the bracket that closes opening,
// and that; code in it is code where the literal may have holes.
func (v *viewer) balanced(opening byte, holes bool) {
	closing := opening
	if at := bytes.IndexByte([]byte("([{<"), opening); at >= 0 {
		closing = ")]}>"[at]
	}
	i, depth := v.i, 0
	for i < len(v.src) {
		switch c := v.src[i]; {
		case c == '\\':
			i++
		case holes && c == '#' && v.depth < maxDepth && bytes.HasPrefix(v.src[i:], []byte("#{")):
			v.body(i)
			v.hole(rubyHole())
			i = v.i
			continue
		case c == closing && depth == 0:
			v.body(i)
			v.keep(1)
			return
		case c == closing:
			depth--
		case c == opening:
			depth++
		}
		i++
	}
	v.body(len(v.src))
}

// valueMayBegin tells whether a value may begin here, so that a slash begins a
// regular expression and no division: nothing before it ends a value.
func (v *viewer) valueMayBegin(verbs ...string) bool {
	text := bytes.TrimRight(v.out, " \t\x01")
	spaced := len(text) < len(v.out)
	if len(text) == 0 {
		return true
	}
	switch last := text[len(text)-1]; {
	case last == ')' || last == ']' || last == '}' || last == '"' || last == '\'' || last == '`' || last == '<':
		return false
	case isWord(last):
		start := len(text)
		for start > 0 && isWord(text[start-1]) {
			start--
		}
		if oneOf(text[start:], verbs...) {
			return true
		}
		// a call without brackets: split /,/
		return v.commands && spaced && !isDigit(text[start]) && v.peek(1) != ' ' && v.peek(1) != '='
	}
	return true
}

// afterOperator tells whether what is before here can only be followed by a
// value.
func (v *viewer) afterOperator() bool {
	text := withoutSpace(v.out)
	return len(text) > 0 && bytes.IndexByte([]byte("=(,[{|&!~"), text[len(text)-1]) >= 0
}

// regular is a regular expression between slashes, where a value may begin.
func regular(verbs ...string) rule {
	return rule{"/", func(v *viewer, _ string) bool {
		if !v.valueMayBegin(verbs...) {
			return false
		}
		const longest = 2000
		i, inClass, end := v.i+1, false, min(len(v.src), v.i+longest)
		lines := v.commands && v.afterOperator() // it may go over many
		for ; i < end && (lines || v.src[i] != '\n') && (inClass || v.src[i] != '/'); i++ {
			switch v.src[i] {
			case '\\':
				i++
			case '[':
				inClass = true
			case ']':
				inClass = false
			}
		}
		if i >= end || v.src[i] != '/' {
			return false
		}
		v.keep(1)
		if v.commands { // Ruby
			v.closed("/", manyLines, '\\', rubyHole())
			return true
		}
		v.body(i)
		v.keep(1)
		return true
	}}
}

// rubyDocument is a here-document of Ruby.
func rubyDocument() rule {
	return rule{"<<", func(v *viewer, _ string) bool {
		n, d := 2, document{}
		if c := v.peek(n); c == '~' || c == '-' {
			d.indented = true
			n++
		}
		quote := v.peek(n)
		if quote == '\'' || quote == '"' || quote == '`' {
			d.plain = quote == '\''
			n++
		} else if c := v.peek(n); c != '_' && !('A' <= c && c <= 'Z') {
			return false // a shift, or an element appended
		}
		return v.documentNamed(n, quote, d)
	}}
}

// rubyBody reads the lines of a document with code inside it.
func rubyBody(v *viewer, _ document, end int) {
	src := v.src
	v.src = src[:end]
	v.closed("\x00", manyLines, '\\', rubyHole())
	v.src = src
}

// rubyGlobal keeps the quote or slash of a variable such as $' from being read
// as a literal, and a character such as ?" likewise.
func rubyGlobal(sign string) rule {
	return rule{sign, func(v *viewer, sign string) bool {
		c := v.peek(1)
		if bytes.IndexByte([]byte("'\"`/#"), c) < 0 || c == 0 || sign == "?" && isWord(v.peek(-1)) {
			return false
		}
		v.keep(2)
		return true
	}}
}
