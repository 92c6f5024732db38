package code

import "unicode/utf8"

// cRules are the comments and literals of C, which many languages took over.
func cRules(more ...rule) *rules {
	return newRules(append(more, line("//"), block("/*", "*/"), escaped(`"`, oneLine), escaped("'", oneLine))...)
}

// separated passes over the quote that parts the digits of a number.
func separated() rule {
	return rule{"'", func(v *viewer, _ string) bool {
		word := v.wordBefore()
		if len(word) == 0 || !isDigit(word[0]) {
			return false
		}
		v.keep(1)
		return true
	}}
}

// rawCpp is a raw string of C++: R"delimiter(body)delimiter".
func rawCpp() rule {
	return rule{`"`, func(v *viewer, _ string) bool {
		if !oneOf(v.wordBefore(), "R", "LR", "uR", "UR", "u8R") {
			return false
		}
		const longest = 16 // ISO/IEC 14882, [lex.string]
		n := 1
		for n <= longest+1 && v.peek(n) != '(' && v.peek(n) != '\n' {
			n++
		}
		if v.peek(n) != '(' {
			return false
		}
		delimiter := string(v.src[v.i+1 : v.i+n])
		v.keep(n + 1)
		v.upTo(")" + delimiter + `"`)
		return true
	}}
}

// rustString is a string of Rust; after r and hashes it is raw.
func rustString() rule {
	return rule{`"`, func(v *viewer, _ string) bool {
		hashes := 0
		for v.peek(-hashes-1) == '#' {
			hashes++
		}
		at := v.i
		v.i -= hashes
		raw := oneOf(v.wordBefore(), "r", "br", "cr")
		v.i = at
		v.keep(1)
		if !raw {
			v.closed(`"`, manyLines, '\\')
			return true
		}
		closing := []byte{'"'}
		for range hashes {
			closing = append(closing, '#')
		}
		v.upTo(string(closing))
		return true
	}}
}

// character is a literal of one character or escape. A quote that begins none,
// as that of a lifetime in Rust, is code.
func character() rule {
	return rule{"'", func(v *viewer, _ string) bool {
		if v.peek(1) == '\\' {
			v.keep(1)
			v.closed("'", oneLine, '\\')
			return true
		}
		if v.i+1 < len(v.src) {
			_, n := utf8.DecodeRune(v.src[v.i+1:])
			if v.peek(1+n) == '\'' && v.peek(1) != '\'' && v.peek(1) != '\n' {
				v.keep(1)
				v.body(v.i + n)
			}
		}
		v.keep(1)
		return true
	}}
}

// hashbang is the first line of a program that is run by its name.
func hashbang() rule {
	return rule{"#!", func(v *viewer, _ string) bool {
		if v.i > 0 {
			return false
		}
		v.comment(v.lineEnd(v.i))
		return true
	}}
}
