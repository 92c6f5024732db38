package corpus

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"io"
	"io/fs"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"unicode/utf8"

	"underlay/corpus/code"
	"underlay/corpus/ignore"
)

// ScanOptions says how to scan.
type ScanOptions struct {
	Raw      bool // count all characters, not the code view
	Workers  int  // 0: one a core
	Progress *Progress
	// Languages, if not nil, are the only ones that are counted.
	Languages []string
	// Thorough counts tokens in every file. Without it they are counted in the
	// first 80 files of a language and then in one of 256; symbols, pairs and
	// runs are counted in all.
	Thorough bool
	// Leave, if not nil, leaves out more files and directories by path.
	Leave func(name string, isDir bool) bool

	everything bool // count generated, minified and vendored code too
}

// Progress tells how far a scan is; it may be read while it runs.
type Progress struct{ Files, Bytes atomic.Int64 }

// Trouble is a file or directory that could not be counted though it should.
type Trouble struct {
	Path   string // not fit to be printed as it is
	Reason Reason
	Err    error // may be nil
}

// maxTroubles bounds how many troubles a scan names.
const maxTroubles = 100

// Scan counts source code. A Scan is for one goroutine; Add uses more inside.
type Scan struct {
	Files, Bytes int64            // counted
	Skipped      map[Reason]int64 // not counted
	Troubles     []Trouble        // those skipped that are worth a word: at most 100, by path

	options   ScanOptions
	languages *code.Languages
	workers   []*worker
	met       map[*code.Language]int // files by language, as far as names tell it
}

// NewScan makes an empty scan.
func NewScan(o ScanOptions) *Scan {
	s := &Scan{Skipped: map[Reason]int64{}, options: o, languages: code.All(), met: map[*code.Language]int{}}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	for range o.Workers {
		s.workers = append(s.workers, &worker{scan: s, counters: map[string]*counter{}, buffer: make([]byte, hugeBytes+1)})
	}
	return s
}

// Add counts what is below dir, a slash-separated path in the tree; .gitignore
// files from the root of the tree downwards are honoured. It returns an error
// where dir itself cannot be read, and that of ctx when that ends; what was
// counted by then is counted.
func (s *Scan) Add(ctx context.Context, tree fs.FS, dir string) error {
	if !fs.ValidPath(dir) {
		return &fs.PathError{Op: "scan", Path: dir, Err: fs.ErrInvalid}
	}
	info, err := fs.Stat(tree, dir)
	if err != nil {
		return err
	}
	batches := make(chan []found, 64)
	var wg sync.WaitGroup
	for _, w := range s.workers {
		wg.Go(func() { w.run(ctx, tree, batches) })
	}
	walk := &walker{ctx: ctx, scan: s, tree: tree, batches: batches}
	if info.IsDir() {
		walk.dir(dir, rulesAbove(tree, dir))
	} else {
		walk.file(dir, info.Mode().Type())
	}
	walk.send()
	close(batches)
	wg.Wait()
	s.collect()
	return ctx.Err()
}

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
		w.scan.Skipped[Link]++
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

// send hands the batch to a worker.
func (w *walker) send() {
	select {
	case w.batches <- w.batch:
	case <-w.ctx.Done():
	}
	w.batch = nil
}

// wants tells whether a language is to be counted.
func (s *Scan) wants(lang *code.Language) bool {
	return s.options.Languages == nil || slices.Contains(s.options.Languages, lang.Name)
}

// detailed tells whether the tokens of the next file of a language are counted.
func (s *Scan) detailed(lang *code.Language) bool {
	const first, every = 80, 256
	n := s.met[lang]
	s.met[lang]++
	return s.options.Thorough || n < first || n%every == 0
}

// skip counts what is skipped and keeps its name.
func (s *Scan) skip(t Trouble) {
	s.Skipped[t.Reason]++
	s.Troubles = append(s.Troubles, t)
}

// worker reads and counts files.
type worker struct {
	scan     *Scan
	counters map[string]*counter // by language
	buffer   []byte
	files    int64
	bytes    int64
	skipped  map[Reason]int64
	troubles []Trouble
}

func (w *worker) run(ctx context.Context, tree fs.FS, batches <-chan []found) {
	w.skipped = map[Reason]int64{}
	for batch := range batches {
		for _, f := range batch {
			if ctx.Err() != nil {
				break // go on taking batches: the walker waits for room
			}
			w.take(tree, f)
		}
	}
}

// take counts one file, or says why not.
func (w *worker) take(tree fs.FS, f found) {
	reason, err := w.count(tree, f)
	if reason != "" {
		w.skipped[reason]++
	}
	if err != nil && len(w.troubles) < maxTroubles {
		w.troubles = append(w.troubles, Trouble{f.name, reason, err})
	}
}

// count reads and counts one file, or returns why it did not.
func (w *worker) count(tree fs.FS, f found) (Reason, error) {
	src, err := w.read(tree, f.name)
	if err != nil {
		return Unreadable, err
	}
	if len(src) > hugeBytes {
		return Huge, nil
	}
	lang := w.scan.languages.Of(f.name, f.lang, src)
	if lang == nil || !w.scan.wants(lang) {
		return Unknown, nil
	}
	lines := bytes.Count(src, []byte{'\n'})
	if reason := judge(lang, src, lines); reason != "" && !w.scan.options.everything {
		return reason, nil
	}
	c := w.counters[lang.Name]
	if c == nil {
		c = newCounter(lang)
		w.counters[lang.Name] = c
	}
	if w.scan.options.Raw {
		c.addRaw(src, lines)
	} else {
		c.add(src, lines, f.tokens)
	}
	w.files++
	w.bytes += int64(len(src))
	if p := w.scan.options.Progress; p != nil {
		p.Files.Add(1)
		p.Bytes.Add(int64(len(src)))
	}
	return "", nil
}

// read reads a file up to one byte more than is wanted.
func (w *worker) read(tree fs.FS, name string) ([]byte, error) {
	f, err := tree.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	n := 0
	for n < len(w.buffer) {
		more, err := f.Read(w.buffer[n:])
		n += more
		if errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
	}
	return w.buffer[:n], nil
}

// collect takes over what the workers have counted, but for the counts.
func (s *Scan) collect() {
	for _, w := range s.workers {
		s.Files += w.files
		s.Bytes += w.bytes
		for reason, n := range w.skipped {
			s.Skipped[reason] += n
		}
		s.Troubles = append(s.Troubles, w.troubles...)
		w.files, w.bytes, w.skipped, w.troubles = 0, 0, nil, nil
	}
	slices.SortFunc(s.Troubles, func(a, b Trouble) int { return cmp.Compare(a.Path, b.Path) })
	s.Troubles = s.Troubles[:min(len(s.Troubles), maxTroubles)]
}

// Table makes a table of what was counted. Its Leaves are the languages.
func (s *Scan) Table(name string) *Table {
	var parts []*Table
	for _, lang := range s.languages.List() {
		var all *counter
		for _, w := range s.workers {
			c := w.counters[lang.Name]
			switch {
			case c == nil:
			case all == nil:
				all = newCounter(lang)
				fallthrough
			default:
				all.merge(c)
			}
		}
		if all != nil {
			parts = append(parts, all.table(name))
		}
	}
	return joined(name, parts)
}
