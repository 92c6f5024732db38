package corpus

import (
	"cmp"
	"context"
	"io/fs"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"underlay/corpus/code"
)

// ScanOptions says how to scan.
type ScanOptions struct {
	Raw      bool // count all characters, not the code view
	Workers  int  // 0: one a core
	Progress *Progress
	// Languages, if not nil, are the only ones that are counted.
	Languages []string
	// Thorough counts tokens in every file. Without it they are counted in the
	// first 40 files of a language, in one of 16 up to the 640th, and then in
	// one of 128; symbols, pairs and runs are counted in all.
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

	mu     sync.Mutex
	tokens map[*code.Language]*tokens
}

// NewScan makes an empty scan.
func NewScan(o ScanOptions) *Scan {
	s := &Scan{Skipped: map[Reason]int64{}, options: o, languages: code.All(), met: map[*code.Language]int{}, tokens: map[*code.Language]*tokens{}}
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

// tokensOf returns what all workers count the tokens of a language in.
func (s *Scan) tokensOf(lang *code.Language) *tokens {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.tokens[lang] == nil {
		room := 1 << 15
		if s.options.Thorough {
			room = 1 << 18 // whatever the order of the files is, nothing has to go
		}
		s.tokens[lang] = newTokens(lang, room)
	}
	return s.tokens[lang]
}

// wants tells whether a language is to be counted.
func (s *Scan) wants(lang *code.Language) bool {
	return s.options.Languages == nil || slices.Contains(s.options.Languages, lang.Name)
}

// detailed tells whether the tokens of the next file of a language are counted.
func (s *Scan) detailed(lang *code.Language) bool {
	n := s.met[lang]
	s.met[lang]++
	return s.options.Thorough || n < 40 || n < 640 && n%16 == 0 || n%128 == 0
}

// skip counts what is skipped and keeps its name.
func (s *Scan) skip(t Trouble) {
	s.Skipped[t.Reason]++
	if len(s.Troubles) < maxTroubles {
		s.Troubles = append(s.Troubles, t)
	}
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

// Table makes a table of what was counted and ends the scan: it is not to be
// used after it. The table's Leaves are the languages.
func (s *Scan) Table(name string) *Table {
	var parts []*Table
	for _, lang := range s.languages.List() {
		if c := s.counterOf(lang); c != nil {
			parts = append(parts, c.table(name))
		}
	}
	s.workers = nil
	return joined(name, parts)
}

// counterOf joins what the workers have counted of a language; nil where that
// is nothing.
func (s *Scan) counterOf(lang *code.Language) (all *counter) {
	for _, w := range s.workers {
		c := w.counters[lang.Name]
		delete(w.counters, lang.Name)
		switch {
		case c == nil:
		case all == nil:
			all = c
		default:
			all.merge(c)
		}
	}
	return all
}
