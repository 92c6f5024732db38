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
		v.closed(quote, far, '\\', holes...)
		return true
	}}
}

// holeAt reads the code that opens at i inside a literal, and what of the body is
// before it. It returns where the body goes on, i where nothing opens.
func (v *viewer) holeAt(i int, holes []inside) int {
	for _, h := range holes {
		switch {
		case !bytes.HasPrefix(v.src[i:], []byte(h.open)):
		case len(h.open) == 1 && i+1 < len(v.src) && v.src[i+1] == h.open[0]:
			return i + 2 // written twice, it stands for itself
		case v.depth < maxDepth:
			v.body(i)
			v.hole(h)
			return v.i
		}
	}
	return i
}

// hole reads the code inside a literal with what opens and closes it.
func (v *viewer) hole(h inside) {
	v.keep(len(h.open))
	v.depth++
	v.code(h.close)
	v.depth--
	v.keep(1)
}
