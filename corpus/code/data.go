package code

import "bytes"

// yamlComment is a comment after space or at the beginning of a line.
func yamlComment() rule {
	read := line("#").read
	return rule{"#", func(v *viewer, open string) bool {
		switch v.peek(-1) {
		case 0, ' ', '\t', '\n':
			return read(v, open)
		}
		return false
	}}
}

// yamlString holds a literal to the places where a value of YAML may begin; in
// the middle of a plain text a quote is a character. Where the place is not
// certain, the literal has to end on its line.
func yamlString(r rule) rule {
	return rule{r.open, func(v *viewer, open string) bool {
		text := bytes.TrimRight(v.out, " \t")
		spaced := len(text) < len(v.out)
		last := byte('\n')
		if len(text) > 0 {
			last = text[len(text)-1]
		}
		switch last {
		case ':', '-', '?':
			return spaced && r.read(v, open)
		case '\n', '[', '{', ',':
			rest := v.src[v.i+1 : v.lineEnd(v.i)]
			return bytes.Contains(rest, []byte(open)) && !plainValue(v.out[bytes.LastIndexByte(v.out, '\n')+1:]) && r.read(v, open)
		}
		return false
	}}
}

// plainValue tells whether a line has a key whose value is plain text, in which
// brackets and commas are characters.
func plainValue(line []byte) bool {
	key, value, found := bytes.Cut(line, []byte(": "))
	value = bytes.TrimLeft(value, " ")
	return found && len(value) > 0 && !bytes.ContainsAny(key, "[{") && !bytes.ContainsAny(value[:1], "[{\"'&!*")
}

// yamlBlock is a text on the lines after | or >, which are indented further.
func yamlBlock(open string) rule {
	return rule{open, func(v *viewer, _ string) bool {
		end := v.lineEnd(v.i)
		header, _, _ := bytes.Cut(v.src[v.i+1:end], []byte(" #"))
		before := v.peek(-1)
		if len(bytes.Trim(header, "+-0123456789 \t\r")) > 0 || before != ' ' && before != '\n' && before != 0 {
			return false
		}
		outer := outerIndentation(v.src[bytes.LastIndexByte(v.src[:v.i], '\n')+1 : v.i])
		v.keep(1 + len(bytes.TrimRight(header, " \t\r")))
		if end == len(v.src) {
			v.i = end
			return true
		}
		last := v.blockEnd(end+1, outer)
		v.body(last)
		v.out = append(v.out, '\n')
		v.i = min(last+1, len(v.src))
		return true
	}}
}

// blockEnd is the end of the last line from i on that is indented further than
// outer.
func (v *viewer) blockEnd(i, outer int) int {
	last := i - 1
	for i < len(v.src) {
		end := v.lineEnd(i)
		blank := len(bytes.TrimSpace(v.src[i:end])) == 0
		if !blank && indentation(v.src[i:]) <= outer {
			break
		}
		if !blank {
			last = end
		}
		i = end + 1
	}
	return last
}

// outerIndentation is what the lines of a text are indented further than, given
// the line up to what opens it: the indentation of its key, which may be on a
// line before, or after the dash of a list.
func outerIndentation(line []byte) int {
	n := indentation(line)
	for {
		rest := line[n:]
		if len(rest) > 0 && (rest[0] == '!' || rest[0] == '&') {
			return n - 1
		}
		item := bytes.TrimLeft(bytes.TrimPrefix(rest, []byte("- ")), " ")
		if !bytes.HasPrefix(rest, []byte("- ")) || len(item) == 0 || item[0] == '!' || item[0] == '&' {
			return n
		}
		n = len(line) - len(item)
	}
}

func indentation(line []byte) int {
	return len(line) - len(bytes.TrimLeft(line, " "))
}
