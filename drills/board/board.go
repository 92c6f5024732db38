package board

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"underlay/assets"
)

// Kind is the shape of a board.
type Kind string

const (
	// Split is two halves of columns shifted per finger, thumb keys under them.
	Split Kind = "split"
	// Ortholinear is one piece with straight columns.
	Ortholinear Kind = "ortholinear"
	// RowStaggered is one piece with the slanted rows of the standard keyboard.
	RowStaggered Kind = "row-staggered"
)

// Board is a keyboard with its keys, its layers and every stroke on them. It
// does not change once it is read, and may be used from several goroutines.
type Board struct {
	Name, Title string
	// OSLayout is what the computer is set to: us, gb, de, fr, es or se.
	OSLayout string
	Kind     Kind

	origin
	file   string
	layout *osLayout
	keys   []Key
	rows   []int // per row: the index of its first key
	layers []layer
	combos []combo
	prefer []preference

	states   []*state
	twofold  []bool           // per key: whether it is tap and hold on some layer
	complete bool             // whether states are all there are
	ways     map[Symbol][]way // the cheapest first
	dead     []way            // those to dead keys
	drilled  map[Symbol]choice
	symbols  []Symbol
	stacks   [][]int // per layer: it and the layers under it as they are shown
	enters   []int   // per layer: the state in which it is topmost
}

// Keys returns all keys, row by row from the left.
func (b *Board) Keys() []Key { return slices.Clone(b.keys) }

// KeyAt returns the key at p.
func (b *Board) KeyAt(p Position) (Key, bool) {
	if n := b.index(p); n >= 0 {
		return b.keys[n], true
	}
	return Key{}, false
}

// index returns the place of a key in Keys, or -1.
func (b *Board) index(p Position) int {
	if p.Row < 1 || p.Row > len(b.rows) || p.Col < 1 {
		return -1
	}
	n := b.rows[p.Row-1] + p.Col - 1
	if n >= len(b.keys) || b.keys[n].Position != p {
		return -1
	}
	return n
}

func (b *Board) layerIndex(name string) int {
	return slices.IndexFunc(b.layers, func(l layer) bool { return l.name == name })
}

// Layers returns the layers' names; the first is the base layer.
func (b *Board) Layers() []string {
	names := make([]string, len(b.layers))
	for i, l := range b.layers {
		names[i] = l.name
	}
	return names
}

// Base returns the base layer's name.
func (b *Board) Base() string { return b.layers[0].name }

// Symbols returns everything the board can produce, in a stable order:
// characters, named keys, chords, keys no computer sees.
func (b *Board) Symbols() []Symbol { return slices.Clone(b.symbols) }

// Strokes returns every way to produce s, the cheapest first.
func (b *Board) Strokes(s Symbol) []Stroke { return b.strokesOf(b.waysTo(s)) }

func (b *Board) waysTo(s Symbol) []way {
	if ways, ok := b.ways[s]; ok {
		return ways
	}
	return b.askedChord(s)
}

// Drilled returns the stroke to practise for s: the preferred one if the file
// says so, else the cheapest.
func (b *Board) Drilled(s Symbol) (Stroke, bool) {
	if c, ok := b.drilled[s]; ok {
		return c.stroke, true
	}
	ways := b.askedChord(s)
	if len(ways) == 0 {
		return Stroke{}, false
	}
	return b.strokesOf(ways[:1])[0], true
}

// Hash identifies the board file's content.
func (b *Board) Hash() string { return b.hash }

// origin is the text a board was read from.
type origin struct {
	source []byte
	hash   string
}

func newOrigin(src []byte) origin {
	sum := sha256.Sum256(src)
	return origin{slices.Clone(src), hex.EncodeToString(sum[:16])}
}

// Source returns that text.
func (o origin) Source() []byte { return slices.Clone(o.source) }

// Embedded returns the names of the boards that come with the program.
func Embedded() []string {
	files, _ := fs.Glob(assets.FS(), "boards/*.toml")
	for i, f := range files {
		files[i] = strings.TrimSuffix(path.Base(f), ".toml")
	}
	return files
}

// Load returns an embedded board by its name.
func Load(name string) (*Board, error) {
	src, err := fs.ReadFile(assets.FS(), "boards/"+name+".toml")
	if err != nil {
		return nil, fmt.Errorf("no embedded board is named %q; there are %s", name, strings.Join(Embedded(), ", "))
	}
	b, found := Read(name+".toml", src)
	return b, found.Err()
}
