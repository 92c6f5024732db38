package board

import (
	"bytes"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// WithOSLayout returns the same board on a computer that is set to another OS
// layout. It is a board of its own: its name ends in that of the layout, and
// source and hash are those of a file that says so.
func (b *Board) WithOSLayout(name string) (*Board, error) {
	if name == b.OSLayout {
		return b, nil
	}
	// Findings have to name places of the file that is there.
	other, found := read(b.file, b.source, name)
	if err := found.Err(); err != nil {
		return nil, err
	}
	other.Name += "-" + name
	other.origin = b.rewritten("name", other.Name).rewritten("os-layout", name)
	return other, nil
}

// PlainName returns the name of a board without the OS layout that WithOSLayout
// put behind it.
func PlainName(name string) string {
	for _, layout := range OSLayouts() {
		if plain, found := strings.CutSuffix(name, "-"+layout); found && plain != "" {
			return plain
		}
	}
	return name
}

// rewritten returns the text with the value of a top-level entry changed, or
// with the entry at its head. The text is that of a board without faults.
func (o origin) rewritten(key, value string) origin {
	line, err := toml.Marshal(map[string]string{key: value})
	if err != nil {
		panic(err) // a text can always be written
	}
	at, there := scanPlaces(o.source)[key]
	if !there {
		return newOrigin(slices.Concat(line, o.source))
	}
	head := o.source[:o.offset(at.value)]
	s := &scanner{src: o.source[len(head):], found: places{}}
	s.value(key)
	_, quoted, _ := bytes.Cut(bytes.TrimSpace(line), []byte(" = "))
	return newOrigin(slices.Concat(head, quoted, s.src[s.pos:]))
}

// offset is where a place is, in bytes.
func (o origin) offset(at place) int {
	s := &scanner{src: o.source, line: 1, col: 1}
	for s.pos < len(s.src) && s.here() != at {
		s.next()
	}
	return s.pos
}
