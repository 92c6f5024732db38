package main

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"github.com/adrg/xdg"
	"golang.org/x/term"
)

// Env is everything a command touches outside its arguments. Tests make their
// own; system makes the real one.
type Env struct {
	Stdin          io.Reader
	Stdout, Stderr io.Writer
	Getenv         func(string) string
	Now            func() time.Time
	Dirs           Dirs
	// Terminal tells whether a stream is a terminal. Only an *os.File can be.
	Terminal func(stream any) bool
	// Columns is the width of the terminal behind a stream, in cells, or 0.
	Columns func(stream any) int
}

// Dirs are the program's own directories. An empty field means that there is
// no home directory to derive it from.
type Dirs struct{ Config, Data, State, Cache string }

// Boards holds the user's board files, one NAME.toml a board.
func (d Dirs) Boards() string { return join(d.Config, "boards") }

// Journal holds the journal, one file a machine.
func (d Dirs) Journal() string { return join(d.Data, "journal") }

// Tables holds the user's own tables, one NAME.tsv a table.
func (d Dirs) Tables() string { return join(d.Data, "tables") }

// ConfigFile is the configuration.
func (d Dirs) ConfigFile() string { return join(d.Config, "underlay.toml") }

// In returns the directories with dir standing for $XDG_DATA_HOME. What goes
// with a journal, its machine name and what is derived from it, moves along.
func (d Dirs) In(dir string) Dirs {
	d.Data = filepath.Join(dir, "underlay")
	d.State = filepath.Join(d.Data, "state")
	d.Cache = filepath.Join(d.Data, "cache")
	return d
}

func join(dir, name string) string {
	if dir == "" {
		return ""
	}
	return filepath.Join(dir, name)
}

// errHomeless is told where a directory is needed and none can be derived.
var errHomeless = errors.New("there is no home directory to keep files in")

// need returns dir, or says that there is none.
func need(dir string) (string, error) {
	if dir == "" {
		return "", hinted(errHomeless, "set HOME, or XDG_CONFIG_HOME, XDG_DATA_HOME, XDG_STATE_HOME and XDG_CACHE_HOME")
	}
	return dir, nil
}

func system() *Env {
	return &Env{
		Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr,
		Getenv: os.Getenv,
		Now:    time.Now,
		Dirs: Dirs{
			Config: userDir("XDG_CONFIG_HOME", xdg.ConfigHome),
			Data:   userDir("XDG_DATA_HOME", xdg.DataHome),
			State:  userDir("XDG_STATE_HOME", xdg.StateHome),
			Cache:  userDir("XDG_CACHE_HOME", xdg.CacheHome),
		},
		Terminal: func(stream any) bool {
			f, ok := stream.(*os.File)
			return ok && term.IsTerminal(int(f.Fd()))
		},
		Columns: func(stream any) int {
			if f, ok := stream.(*os.File); ok {
				w, _, _ := term.GetSize(int(f.Fd()))
				return w
			}
			return 0
		},
	}
}

// userDir is the program's directory under a base directory of the XDG Base
// Directory Specification. Without a home the base would be under /, where
// nothing of the user's belongs.
func userDir(variable, base string) string {
	if home, err := os.UserHomeDir(); (err != nil || home == "") && !filepath.IsAbs(os.Getenv(variable)) {
		return ""
	}
	return filepath.Join(base, "underlay")
}

// width is the number of columns to format standard output for: the
// terminal's, $COLUMNS, or 80.
func (e *Env) width() int {
	if w := e.Columns(e.Stdout); w > 0 {
		return w
	}
	if w, err := strconv.Atoi(e.Getenv("COLUMNS")); err == nil && w > 0 {
		return w
	}
	return 80
}

// interactive tells whether a person sits at both ends.
func (e *Env) interactive() bool { return e.Terminal(e.Stdin) && e.Terminal(e.Stdout) }

// json prints v as one indented object or array; symbols stay readable.
func (e *Env) json(v any) error {
	out := json.NewEncoder(e.Stdout)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(v)
}
