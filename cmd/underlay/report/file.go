package report

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"underlay/cmd/underlay/aside"
)

// How many lines all pages, tables, and sheets of one board begin with.
const (
	PageBegins      = 5
	CSVBegins       = 1
	SheetBegins     = 3
	SheetTextBegins = 1
)

// ErrOther says that something else is in a file's place.
var ErrOther = errors.New("the file exists, and holds something else")

// File is a file to make. One that is there already is written over if it is one of
// the same kind, made before.
type File struct {
	Name   string
	Begins int  // lines: one that is there begins with the same ones if it is of the kind
	Force  bool // it is written over whatever it is
}

// Write makes the file of what write writes. It is written aside, synced and
// renamed, so that the file is the old or the new one whatever happens. A link
// stays a link; what it leads to is written.
func (f File) Write(write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	file := f.Name
	if real, err := filepath.EvalSymlinks(file); err == nil {
		file = real
	}
	info, err := os.Stat(file)
	switch there := err == nil; {
	case there && !info.Mode().IsRegular():
		return fmt.Errorf("it is no regular file")
	case there && !f.Force && info.Size() > 0 && !f.alike(file, b.Bytes()):
		return ErrOther
	}
	if _, err := os.Stat(filepath.Dir(file)); err != nil {
		return err
	}
	return uninterrupted(func() error { return aside.Write(file, &b) })
}

// alike tells whether a file begins as its new content does.
func (f File) alike(file string, content []byte) bool {
	old, err := os.Open(file)
	if err != nil {
		return false
	}
	defer old.Close()
	was, is := bufio.NewReader(old), bufio.NewReader(bytes.NewReader(content))
	for range f.Begins {
		a, err := was.ReadString('\n')
		b, _ := is.ReadString('\n')
		if err != nil || a != b {
			return false
		}
	}
	return true
}
