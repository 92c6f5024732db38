package drills

import (
	"bytes"
	"fmt"
	"io/fs"
	"strings"

	"github.com/BurntSushi/toml"

	"underlay/assets"
	"underlay/drills/board"
)

// motions are the editor commands that drills are made of, as the file
// motions.toml lists them.
type motions struct {
	Motion   []movement `toml:"motion"`
	Operator []operator `toml:"operator"`
	Command  []command  `toml:"command"`
	by       [3]sampler // of each, by how often it is used
}

// movement is a motion of the editor. {n} in its texts is the count, {c} the
// character or mark, {w} the word searched for.
type movement struct {
	Keys     keys
	Takes    string // "", character, mark, word
	Often    float64
	Lines    bool   // it reaches whole lines, or may be used so
	Goes     string // alone
	Over     string // after an operator; "": not used so
	GoesMany string `toml:"goes-many"` // with a count; "": not used so
	OverMany string `toml:"over-many"`
}

// operator is an editor command that takes a motion.
type operator struct {
	Keys   keys
	Often  float64
	Does   string
	Lines  bool // it works on whole lines
	Text   bool // a text and Escape follow
	Filter keys // what follows the motion
}

// command is an editor command without a motion.
type command struct {
	Keys  keys
	Takes string // "", character, mark, text
	Often float64
	Does  string
	Many  string // with a count; "": it takes none
	Equal []keys
}

// keys are the symbols of a command, written as in a board file.
type keys []board.Symbol

// UnmarshalText reads symbols separated by spaces.
func (k *keys) UnmarshalText(text []byte) error {
	for s := range strings.FieldsSeq(string(text)) {
		*k = append(*k, board.Symbol(s))
	}
	if len(*k) == 0 {
		return fmt.Errorf("no keys in %q", text)
	}
	return nil
}

// readMotions reads the file of editor commands.
func readMotions(src []byte) (*motions, error) {
	m := &motions{}
	info, err := toml.NewDecoder(bytes.NewReader(src)).Decode(m)
	if err != nil {
		return nil, fmt.Errorf("motions.toml: %w", err)
	}
	if unknown := info.Undecoded(); len(unknown) > 0 {
		return nil, fmt.Errorf("motions.toml: unknown entry %q", unknown[0])
	}
	for _, x := range m.Motion {
		m.by[0].add(often(x.Often))
	}
	for _, x := range m.Operator {
		m.by[1].add(often(x.Often))
	}
	for _, x := range m.Command {
		m.by[2].add(often(x.Often))
	}
	return m, nil
}

func often(n float64) float64 {
	if n == 0 {
		return 1
	}
	return n
}

// embeddedMotions reads the embedded commands. A test holds the file, so that
// an error cannot come here; without commands there are no drills of them.
func embeddedMotions() *motions {
	src, err := fs.ReadFile(assets.FS(), "motions.toml")
	if err != nil {
		return &motions{}
	}
	m, err := readMotions(src)
	if err != nil {
		return &motions{}
	}
	return m
}
