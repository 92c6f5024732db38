package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"underlay/assets"
	"underlay/cmd/underlay/config"
	"underlay/corpus"
	"underlay/drills/board"
)

// configuration reads underlay.toml; without one the defaults hold.
func (e *Env) configuration() (config.Config, error) {
	file := e.Dirs.ConfigFile()
	src, err := readFile(file)
	if file == "" || errors.Is(err, fs.ErrNotExist) {
		return config.Default(), nil
	}
	if err != nil {
		return config.Config{}, misuse("%w", tried("read the configuration", file, err))
	}
	c, found := config.Read(file, src)
	if err := found.Err(); err != nil {
		return c, err
	}
	return e.resolved(c), nil
}

// resolved makes the files that a configuration names independent of where the
// program is started: they are taken from the directory of the configuration.
func (e *Env) resolved(c config.Config) config.Config {
	full := func(name string) string {
		path, err := e.home(name)
		if err != nil || filepath.IsAbs(path) {
			return path
		}
		return filepath.Join(e.Dirs.Config, path)
	}
	for i, name := range c.Boards {
		if isFile(name) {
			c.Boards[i] = full(name)
		}
	}
	for i, name := range c.From {
		c.From[i] = full(name)
	}
	return c
}

// board returns a board by its name or its file: a name with a slash or an
// ending .toml is a file; the user's own boards come before embedded ones. A
// board's name with that of an OS layout behind it, as in iso-62-de, is the
// board on a computer that is set to it.
func (e *Env) board(name string) (*board.Board, error) {
	b, found, err := e.readBoard(name)
	if err == nil {
		err = found.Err()
	}
	return b, err
}

// readBoard reads a board with all that is found in it.
func (e *Env) readBoard(name string) (*board.Board, board.Findings, error) {
	file := e.boardFile(name)
	if file == "" {
		b, err := e.knownBoard(name)
		return b, nil, err
	}
	src, err := readFile(file)
	if err != nil {
		return nil, nil, misuse("%w", tried("read the board", file, err))
	}
	b, found := board.Read(file, src)
	return b, found, nil
}

// boardFile is the file of a board of the user's, or "".
func (e *Env) boardFile(name string) string {
	if isFile(name) {
		return name
	}
	if own := filepath.Join(e.Dirs.Boards(), name+".toml"); e.Dirs.Boards() != "" && exists(own) {
		return own
	}
	return ""
}

// knownBoard returns a board that has no file of that name: an embedded one,
// or any on the OS layout that the name ends in.
func (e *Env) knownBoard(name string) (*board.Board, error) {
	if slices.Contains(board.Embedded(), name) {
		return board.Load(name)
	}
	dash := max(strings.LastIndexByte(name, '-'), 0)
	plain, layout := name[:dash], strings.TrimPrefix(name[dash:], "-")
	if !slices.Contains(board.OSLayouts(), layout) || !slices.Contains(e.boardNames(), plain) {
		return nil, e.noBoard(name)
	}
	b, err := e.board(plain)
	if err != nil {
		return nil, err
	}
	return b.WithOSLayout(layout)
}

func (e *Env) noBoard(name string) error {
	p := misuse("there is no board %q", name)
	if hint := config.DidYouMean(name, e.boardNames()); hint != "" {
		return p.hinted("%s", hint)
	}
	return p.hinted("there are %s", strings.Join(e.boardNames(), ", "))
}

// boardTitle reads the title of a board and nothing else of it; it is empty
// for a board that cannot be read.
func (e *Env) boardTitle(name string) string {
	src, err := readFile(filepath.Join(e.Dirs.Boards(), name+".toml"))
	if e.Dirs.Boards() == "" || err != nil {
		src, _ = fs.ReadFile(assets.FS(), "boards/"+name+".toml")
	}
	var head struct {
		Title string `toml:"title"`
	}
	_ = toml.Unmarshal(src, &head) // what is wrong is told where the board is used
	return head.Title
}

// boardNames are the names of all boards: the user's own first.
func (e *Env) boardNames() []string {
	return merged(e.ownNames(e.Dirs.Boards(), ".toml"), board.Embedded())
}

// table returns a table of counts by its name; the user's own come before
// embedded ones.
func (e *Env) table(name string) (*corpus.Table, error) {
	file := filepath.Join(e.Dirs.Tables(), name+".tsv")
	if e.Dirs.Tables() != "" && filepath.Base(name) == name && exists(file) {
		src, err := readFile(file)
		if err != nil {
			return nil, misuse("%w", tried("read the table", file, err))
		}
		t, err := corpus.ReadTable(name, bytes.NewReader(src))
		return t, tableFault(file, err)
	}
	if slices.Contains(corpus.Embedded(), name) {
		return corpus.Load(name)
	}
	p := misuse("there is no table %q", name)
	if hint := config.DidYouMean(name, e.tableNames()); hint != "" {
		return nil, p.hinted("%s", hint)
	}
	return nil, p.hinted("there are %s", strings.Join(e.tableNames(), ", "))
}

// tableFault turns the faults of a table's file into findings.
func tableFault(file string, err error) error {
	faults, ok := errors.AsType[corpus.Faults](err)
	if !ok {
		return err
	}
	var found board.Findings
	for _, f := range faults {
		found = append(found, board.Finding{File: file, Line: f.Line, Col: f.Col, Level: board.Fault, Message: f.Message, Hint: f.Hint})
	}
	return found.Err()
}

// tableNames are the names of all tables: the user's own first.
func (e *Env) tableNames() []string {
	return merged(e.ownNames(e.Dirs.Tables(), ".tsv"), corpus.Embedded())
}

// ownNames lists the files of a directory of the user's, without their ending.
func (e *Env) ownNames(dir, ending string) []string {
	if dir == "" {
		return nil
	}
	entries, _ := os.ReadDir(dir) // one that is not there has no files
	var out []string
	for _, f := range entries {
		if name, ok := strings.CutSuffix(f.Name(), ending); ok && name != "" && !f.IsDir() {
			out = append(out, name)
		}
	}
	return out
}

func merged(own, embedded []string) []string {
	out := slices.Clone(own)
	for _, name := range embedded {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func isFile(name string) bool {
	return strings.ContainsRune(name, os.PathSeparator) || strings.Contains(name, "/") || strings.HasSuffix(name, ".toml")
}

func exists(file string) bool {
	_, err := os.Stat(file)
	return err == nil
}

// home puts the home directory in the place of a leading "~/".
func (e *Env) home(path string) (string, error) {
	rest, ok := strings.CutPrefix(path, "~/")
	if !ok && path != "~" {
		return path, nil
	}
	dir := e.Getenv("HOME")
	if dir == "" {
		return path, fmt.Errorf("%q: %w", path, errHomeless)
	}
	return filepath.Join(dir, rest), nil
}

// largest is how long a file that is read whole may be: far more than any board,
// table or configuration.
const largest = 32 << 20

// readFile reads a regular file that is not larger than it can sensibly be. A
// device or a pipe might never end.
func readFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, err
	case info.Mode().IsRegular() && info.Size() > largest:
		return nil, fmt.Errorf("larger than %d MB", largest>>20)
	case !info.Mode().IsRegular() && !info.IsDir():
		return nil, errors.New("it is no plain file")
	}
	return os.ReadFile(name)
}
