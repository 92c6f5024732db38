package corpus

import (
	"context"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"underlay/corpus/code"
	"underlay/corpus/ignore"
)

// rulesAbove reads the .gitignore files of the directories above dir.
func rulesAbove(tree fs.FS, dir string) *ignore.Rules {
	if dir == "." {
		return nil
	}
	above := path.Dir(dir)
	return readRules(tree, above, rulesAbove(tree, above))
}

func readRules(tree fs.FS, dir string, above *ignore.Rules) *ignore.Rules {
	text, err := fs.ReadFile(tree, path.Join(dir, ".gitignore"))
	if err != nil {
		return above
	}
	return ignore.In(above, dir, text)
}

// walker finds the files to count, in one goroutine.
type walker struct {
	ctx     context.Context
	scan    *Scan
	tree    fs.FS
	batches chan<- []found
	batch   []found // found and not yet sent
}

// found is a file to count.
type found struct {
	name   string
	lang   *code.Language // as its name tells it, or nil
	tokens bool           // count its tokens too
}

func (w *walker) dir(dir string, above *ignore.Rules) {
	if w.ctx.Err() != nil {
		return
	}
	entries, err := fs.ReadDir(w.tree, dir)
	if err != nil {
		w.scan.skip(Trouble{dir, Unreadable, err})
	}
	rules := above
	if slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == ".gitignore" && e.Type().IsRegular() }) {
		rules = readRules(w.tree, dir, above)
	}
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		switch {
		case !utf8.ValidString(e.Name()):
			w.scan.skip(Trouble{name, BadName, nil})
		case e.IsDir() && vendored(e.Name()) && !w.scan.options.everything:
			w.scan.Skipped[Vendored]++
		case rules.Match(name, e.IsDir()), w.scan.options.Leave != nil && w.scan.options.Leave(name, e.IsDir()):
			w.scan.Skipped[Ignored]++
		case e.IsDir():
			w.dir(name, rules)
		default:
			w.file(name, e.Type())
		}
	}
}

func (w *walker) file(name string, mode fs.FileMode) {
	lang := w.scan.languages.ByName(name)
	switch {
	case mode&fs.ModeSymlink != 0:
		w.link(name)
	case !mode.IsRegular():
		w.scan.skip(Trouble{name, Special, nil})
	case lang != nil && !w.scan.wants(lang) && !strings.HasSuffix(name, ".h"):
		w.scan.Skipped[Unknown]++
	case lang == nil && strings.Contains(strings.TrimPrefix(path.Base(name), "."), "."):
		w.scan.Skipped[Unknown]++
	case namedGenerated(name):
		w.scan.Skipped[Generated]++
	default:
		const files = 16 // a batch: workers wait less for each other than for single files
		if w.batch = append(w.batch, found{name, lang, w.scan.detailed(lang)}); len(w.batch) == files {
			w.send()
		}
	}
}

// link names a link that leads nowhere or in a circle; others need no word.
func (w *walker) link(name string) {
	_, err := fs.Stat(w.tree, name)
	if err == nil && w.leadsBack(name) {
		err = errors.New("it leads back to a directory above it")
	}
	if err == nil {
		w.scan.Skipped[Link]++
		return
	}
	w.scan.skip(Trouble{name, Link, err})
}

func (w *walker) leadsBack(link string) bool {
	target, err := fs.ReadLink(w.tree, link)
	if err != nil || path.IsAbs(target) {
		return false
	}
	dir := path.Join(path.Dir(link), target)
	return dir == "." || strings.HasPrefix(link, dir+"/")
}

// send hands the batch to a worker.
func (w *walker) send() {
	select {
	case w.batches <- w.batch:
	case <-w.ctx.Done():
	}
	w.batch = nil
}
