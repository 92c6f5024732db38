package code

import "bytes"

// tag is a tag of HTML with the attributes in it; after that of a script or
// style the code up to its end is in that language.
func tag(script, style *rules) rule {
	return rule{"<", func(v *viewer, _ string) bool {
		c := v.peek(1)
		if !isLetter(c) && c != '/' && c != '!' && c != '?' {
			return false
		}
		n := 1
		for isWord(v.peek(n)) || v.peek(n) == '-' {
			n++
		}
		name := bytes.ToLower(v.src[v.i+1 : v.i+n])
		v.attributes()
		switch string(name) {
		case "script":
			v.embedded(script, "</script")
		case "style":
			v.embedded(style, "</style")
		}
		return true
	}}
}

// attributes reads a tag up to its end.
func (v *viewer) attributes() {
	for v.i < len(v.src) {
		i := v.i
		for i < len(v.src) && v.src[i] != '>' && v.src[i] != '"' && v.src[i] != '\'' {
			i++
		}
		v.keep(i - v.i)
		if i == len(v.src) {
			return
		}
		c := v.src[i]
		v.keep(1)
		if c == '>' {
			return
		}
		v.upTo(string(c))
	}
}

// embedded reads code in another language up to the tag that ends it.
func (v *viewer) embedded(r *rules, closing string) {
	end := len(v.src)
	if at := bytes.Index(bytes.ToLower(v.src[v.i:]), []byte(closing)); at >= 0 {
		end = v.i + at
	}
	inner := r.viewer(v.src[:end], v.out)
	inner.i = v.i
	inner.code(0)
	v.out, v.i = inner.out, end
}

// address is an address without quotes in url(…).
func address() rule {
	return rule{"url(", func(v *viewer, open string) bool {
		if c := v.peek(len(open)); c == '"' || c == '\'' {
			return false
		}
		v.keep(len(open))
		v.upTo(")")
		return true
	}}
}

// templateLiteral is the template string of JavaScript.
func templateLiteral() rule { return template("`", manyLines, inside{"${", '}'}) }
