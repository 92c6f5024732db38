package code

import "bytes"

// longBracket is a literal or comment of Lua in long brackets, after open:
// [[…]], [==[…]==].
func longBracket(open string, isComment bool) rule {
	return rule{open + "[", func(v *viewer, open string) bool {
		n := len(open)
		for v.peek(n) == '=' {
			n++
		}
		if v.peek(n) != '[' {
			return false
		}
		level := v.src[v.i+len(open) : v.i+n]
		closing := "]" + string(level) + "]"
		if isComment {
			v.comment(v.find(v.i+n, closing))
			return true
		}
		v.keep(n + 1)
		v.upTo(closing)
		return true
	}}
}

// haskellLine is a comment after two dashes or more that are no part of an
// operator.
func haskellLine() rule {
	symbols := []byte("!#$%&*+./<=>?@\\^|~:")
	read := line("--").read
	return rule{"--", func(v *viewer, open string) bool {
		n := 2
		for v.peek(n) == '-' {
			n++
		}
		if after, before := v.peek(n), v.peek(-1); after != 0 && bytes.IndexByte(symbols, after) >= 0 || before != 0 && bytes.IndexByte(symbols, before) >= 0 {
			v.keep(n)
			return true
		}
		return read(v, open)
	}}
}

// pragma keeps what opens like a comment and is none.
func pragma(open string) rule {
	return rule{open, func(v *viewer, open string) bool {
		v.keep(len(open))
		return true
	}}
}

// primed passes over a quote that ends a name, as in x'.
func primed() rule {
	return rule{"'", func(v *viewer, _ string) bool {
		if before := v.peek(-1); !isWord(before) && before != '\'' {
			return false
		}
		v.keep(1)
		return true
	}}
}

// sqlString is a string of SQL: a quote in it is written twice. After E a
// backslash counts too.
func sqlString() rule {
	plain := doubled("'").read
	return rule{"'", func(v *viewer, quote string) bool {
		if oneOf(v.wordBefore(), "E", "e") {
			v.keep(1)
			v.closed(quote, manyLines, '\\')
			return true
		}
		return plain(v, quote)
	}}
}
