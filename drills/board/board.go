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
	keys    []Key
	layers  []layer
	strokes map[Symbol][]Stroke
	drilled map[Symbol]int
	symbols []Symbol
}

type layer struct {
	name string
}

// Keys returns all keys, row by row from the left.
func (b *Board) Keys() []Key { return slices.Clone(b.keys) }

// KeyAt returns the key at p.
func (b *Board) KeyAt(p Position) (Key, bool) {
	for _, k := range b.keys {
		if k.Position == p {
			return k, true
		}
	}
	return Key{}, false
}

// Layers returns the layers' names; the first is the base layer.
func (b *Board) Layers() []string {
	names := make([]string, len(b.layers))
	for i, l := range b.layers {
		names[i] = l.name
	}
	return names
}

// Legend returns what to write on the key at p while layer is active.
func (b *Board) Legend(layer string, p Position) Legend { return Legend{} }

// Gives returns the symbol of a tap at p while layer is active; what falls
// through is followed. It is false where the key gives no symbol.
func (b *Board) Gives(layer string, p Position) (Symbol, bool) { return "", false }

// Symbols returns everything the board can produce, in a stable order:
// characters, named keys, chords, keys no computer sees.
func (b *Board) Symbols() []Symbol { return slices.Clone(b.symbols) }

// Strokes returns every way to produce s, the cheapest first.
func (b *Board) Strokes(s Symbol) []Stroke { return b.strokes[s] }

// Drilled returns the stroke to practise for s: the preferred one if the file
// says so, else the cheapest.
func (b *Board) Drilled(s Symbol) (Stroke, bool) {
	all := b.Strokes(s)
	if len(all) == 0 {
		return Stroke{}, false
	}
	return all[b.drilled[s]], true
}

// Words says a stroke in words: "hold left thumb 3 · right index finger, home row".
func (b *Board) Words(s Stroke) string { return s.String() }

// Hash identifies the board file's content.
func (b *Board) Hash() string {
	sum := sha256.Sum256(b.source)
	return hex.EncodeToString(sum[:16])
}

// origin is the text a board was read from.
type origin struct{ source []byte }

// Source returns that text.
func (o origin) Source() []byte { return slices.Clone(o.source) }

// Legend is what to write on a key.
type Legend struct {
	// Tap is what the key gives when it is pressed, Hold what it does when
	// held; either may be empty. Both are safe to show.
	Tap, Hold string
	// Shift is what the key gives with Shift, where it is a character and
	// not the upper case of Tap.
	Shift string
	// Through marks a key that falls through to a layer below; Tap and Hold
	// are then what it has there.
	Through bool
	// Unseen marks a key that does something no program sees; Never one that
	// is not to be pressed in vain.
	Unseen, Never bool
}

// Short returns the legend in at most four cells: the tap, or else the hold.
func (l Legend) Short() string { return l.Tap }

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
