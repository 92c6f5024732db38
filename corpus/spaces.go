package corpus

import "bytes"

// Strokes are counted with all space, and what is none of them is set right:
// indentation, and space at the end of a line. Most sources that are indented
// with tabs have no other tabs, and no space at the end of a line. Then nothing
// has to be looked at line by line: what comes after a tab comes after
// indentation, and settle sees to that.

// odd is higher after a source with other space.
func (s *strokes) odd() (n uint64) {
	row := func(second byte) []uint32 { return s.recent[int(second)<<8:][:1<<8] }
	tabs := row('\t')
	for _, one := range tabs {
		n += uint64(one)
	}
	n -= uint64(tabs['\n']) + uint64(tabs['\t'])
	for _, space := range []byte(" \r\f") {
		n += uint64(row(space)['\n']) + uint64(row(space)['\t']) + uint64(row('\n')[space])
	}
	return n + uint64(row('\n')['\t'])
}

// spaces sets right what stands beside space, line by line.
func (s *strokes) spaces(view []byte, n int) {
	for i := 0; i < n; i++ {
		next := bytes.IndexByte(view[i:n], '\n')
		if next < 0 {
			break
		}
		i += next
		if i > 0 && s.classes[view[i-1]] == classSpace {
			s.trailing(view, i-1, true)
		}
		if i+1 < n && s.classes[view[i+1]] == classSpace {
			s.indented(view, i+1, '\n')
		}
	}
	s.tabs(view, n)
}

// tabs makes spaces of tabs inside lines, where something comes after them.
func (s *strokes) tabs(view []byte, n int) {
	for i := 0; ; {
		next := bytes.IndexByte(view[i:n], '\t')
		if next < 0 {
			return
		}
		i += next
		first := i
		for first > 0 && s.classes[view[first-1]] == classSpace {
			first--
		}
		for s.classes[view[i]] == classSpace {
			i++
		}
		inside := first > 0 && view[first-1] != '\n' && view[i] != '\n'
		if inside && view[i-1] == '\t' {
			s.recent['\t'|uint16(view[i])<<8]--
			s.recent[' '|uint16(view[i])<<8]++
		}
	}
}

// indented makes of indentation from i on that before is followed by what
// comes after. Of a blank line it leaves the space to trailing.
func (s *strokes) indented(view []byte, i int, before byte) {
	first := i
	for s.classes[view[i]] == classSpace {
		i++
	}
	if i > first && view[i] != '\n' {
		s.recent[uint16(before)|uint16(view[first])<<8]--
		s.recent[uint16(view[i-1])|uint16(view[i])<<8]--
		s.recent[uint16(before)|uint16(view[i])<<8]++
	}
}

// trailing takes back the space that ends at last, at the end of a line. Where
// a line feed is there, that follows what is before the space.
func (s *strokes) trailing(view []byte, last int, lineFeed bool) {
	i := last
	for i >= 0 && s.classes[view[i]] == classSpace {
		i--
	}
	before := byte(0)
	if i >= 0 {
		before = view[i]
	}
	s.recent[uint16(before)|uint16(view[i+1])<<8]--
	if lineFeed {
		s.recent[uint16(view[last])|'\n'<<8]--
		s.recent[uint16(before)|'\n'<<8]++
	}
}
