package main

import (
	"errors"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"strings"

	"underlay/corpus/code"
	"underlay/corpus/ignore"
	"underlay/drills"
	"underlay/drills/board"
)

// Bounds on what is read of the user's own files: enough lines for a sitting,
// without a start that keeps anybody waiting.
const (
	ownFiles    = 24
	ownFileSize = 256 << 10
	ownLines    = 240
	ownLooked   = 4000    // entries of directories looked at
	ownRead     = 4 << 20 // bytes of a file that is named itself
)

// ownLines reads lines of the user's own code for the board. The first named
// paths were given on the command line: that one of them cannot be read is the
// user's mistake; of the configuration's, one may be away for today.
func (e *Env) ownLines(paths []string, named int, b *board.Board, keeps []board.Symbol, seed uint64) ([]drills.Drill, error) {
	draw := rand.New(rand.NewPCG(seed, 7))
	var files []string
	for i, from := range paths {
		found, err := e.filesAt(from)
		if err != nil && i < named {
			return nil, misuse("%w", tried("read lines from", from, err))
		}
		files = append(files, found...)
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

// filesAt lists the source files at a path of the user's.
func (e *Env) filesAt(from string) ([]string, error) {
	from, err := e.home(from)
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(from)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return sourceFiles(from), nil
	case !info.Mode().IsRegular(): // reading it might never end
		return nil, errors.New("neither a file nor a directory")
	}
	return []string{from}, nil
}

func linesOf(file string, b *board.Board, keeps []board.Symbol) ([]drills.Drill, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return drills.Own(io.LimitReader(f, ownRead), b, drills.Options{Keeps: keeps})
}

// sourceFiles lists the source files below a directory, by its .gitignore files,
// in the order of their names.
func sourceFiles(root string) []string {
	s := &sources{tree: os.DirFS(root), languages: code.All()}
	s.dir(".", nil)
	for i, name := range s.files {
		s.files[i] = filepath.Join(root, filepath.FromSlash(name))
	}
	return s.files
}

// sources looks for files in a tree.
type sources struct {
	tree      fs.FS
	languages *code.Languages
	looked    int
	files     []string
}

func (s *sources) dir(dir string, above *ignore.Rules) {
	entries, _ := fs.ReadDir(s.tree, dir) // what cannot be read has no lines to give
	rules := above
	if text, err := fs.ReadFile(s.tree, path.Join(dir, ".gitignore")); err == nil {
		rules = ignore.In(above, dir, text)
	}
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		s.looked++
		switch {
		case s.looked > ownLooked || strings.HasPrefix(e.Name(), ".") || rules.Match(name, e.IsDir()):
		case e.IsDir() && (e.Name() == "vendor" || e.Name() == "node_modules"):
		case e.IsDir():
			s.dir(name, rules)
		case e.Type().IsRegular() && s.languages.ByName(e.Name()) != nil && small(e):
			s.files = append(s.files, name)
		}
	}
}

func small(e fs.DirEntry) bool {
	info, err := e.Info()
	return err == nil && info.Size() <= ownFileSize
}
