package main

import (
	"cmp"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"underlay/drills"
	"underlay/drills/board"
)

// Bounds on what is read of the user's own files: enough lines for a sitting,
// without a start that keeps anybody waiting.
const (
	ownFiles    = 24
	ownFileSize = 256 << 10
	ownLines    = 240
	ownLooked   = 4000 // entries of directories looked at
)

// ownLines reads lines of the user's own code for the board. The first named
// paths were given on the command line: that one of them cannot be read is the
// user's mistake; of the configuration's, one may be away for today.
func (e *Env) ownLines(paths []string, named int, b *board.Board, keeps []board.Symbol, seed uint64) ([]drills.Drill, error) {
	draw := rand.New(rand.NewPCG(seed, 7))
	var files []string
	for i, path := range paths {
		path, err := e.home(path)
		if err == nil {
			_, err = os.Stat(path)
		}
		if err != nil {
			if i < named {
				return nil, misuse("%w", tried("read lines from", path, err))
			}
			continue
		}
		files = append(files, sourceFiles(path)...)
	}
	draw.Shuffle(len(files), func(i, j int) { files[i], files[j] = files[j], files[i] })
	var out []drills.Drill
	for _, file := range files[:min(ownFiles, len(files))] {
		lines, err := linesOf(file, b, keeps)
		if err != nil {
			if named > 0 && len(files) == 1 {
				return nil, misuse("%w", tried("read lines from", file, err))
			}
			continue
		}
		out = append(out, lines...)
	}
	draw.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out[:min(ownLines, len(out))], nil
}

func linesOf(file string, b *board.Board, keeps []board.Symbol) ([]drills.Drill, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return drills.Own(f, b, drills.Options{Keeps: keeps})
}

// sourceFiles lists files below a path that may be source, in the order of
// their names; a path to a file is that file.
func sourceFiles(path string) []string {
	var out []string
	looked := 0
	filepath.WalkDir(path, func(name string, d fs.DirEntry, err error) error {
		looked++
		switch {
		case err != nil || looked > ownLooked:
			return cmp.Or(skipAll(looked), skip(d))
		case d.IsDir():
			if name != path && hidden(d.Name()) {
				return fs.SkipDir
			}
		case d.Type().IsRegular() && (name == path || !hidden(d.Name())):
			if info, err := d.Info(); err == nil && info.Size() <= ownFileSize {
				out = append(out, name)
			}
		}
		return nil
	})
	slices.Sort(out)
	return out
}

func skipAll(looked int) error {
	if looked > ownLooked {
		return fs.SkipAll
	}
	return nil
}

func skip(d fs.DirEntry) error {
	if d != nil && d.IsDir() {
		return fs.SkipDir
	}
	return nil
}

func hidden(name string) bool {
	return strings.HasPrefix(name, ".") || name == "node_modules" || name == "vendor"
}
