package code

import "bytes"

// maxDepth bounds how deep code and literals may hold each other.
const maxDepth = 64

// inside says what opens code inside a literal, and what closes it.
type inside struct {
	open  string
	close byte
}

// template is a literal from quote to quote with code inside it.
func template(quote string, far reach, holes ...inside) rule {
	return rule{quote, func(v *viewer, quote string) bool {
		v.keep(len(quote))
		v.withHoles(quote, far, holes...)
		return true
	}}
}

// withHoles reads the body of a literal with code inside it up to its quote,
// and the quote.
func (v *viewer) withHoles(quote string, far reach, holes ...inside) {
	i := v.i
next:
	for i < len(v.src) {
		for _, h := range holes {
			if !bytes.HasPrefix(v.src[i:], []byte(h.open)) {
				continue
			}
			if len(h.open) == 1 && i+1 < len(v.src) && v.src[i+1] == h.open[0] {
				i += 2 // written twice, it stands for itself
				continue next
			}
			if v.depth < maxDepth {
				v.body(i)
				v.hole(h)
				i = v.i
				continue next
			}
		}
		switch c := v.src[i]; {
		case c == '\\':
			i++
		case c == '\n' && far == oneLine:
			v.body(i)
			return
		case c == quote[0] && bytes.HasPrefix(v.src[i:], []byte(quote)):
			v.body(i)
			v.keep(len(quote))
			return
		}
		i++
	}
	v.body(len(v.src))
}

// hole reads the code inside a literal with what opens and closes it.
func (v *viewer) hole(h inside) {
	v.keep(len(h.open))
	v.depth++
	v.code(h.close)
	v.depth--
	v.keep(1)
}
