package corpus

import (
	"errors"
	"io/fs"
	"path"
	"strings"

	"underlay/assets"
)

// Embedded returns the names of the tables that come with the program, sorted.
func Embedded() []string {
	files, _ := fs.Glob(assets.FS(), "tables/*.tsv") // sorted; the pattern is good
	for i, f := range files {
		files[i] = strings.TrimSuffix(path.Base(f), ".tsv")
	}
	return files
}

// Load reads an embedded table. A name that there is not gives an error that
// is fs.ErrNotExist.
func Load(name string) (*Table, error) {
	f, err := assets.FS().Open("tables/" + name + ".tsv")
	if errors.Is(err, fs.ErrInvalid) {
		return nil, &fs.PathError{Op: "load", Path: name, Err: fs.ErrNotExist}
	} else if err != nil {
		return nil, err
	}
	defer f.Close()
	return ReadTable(name, f)
}
