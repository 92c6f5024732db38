package corpus

import (
	"context"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// goSource is the installed Go distribution's source: about 90 MB.
func goSource(tb testing.TB) string {
	tb.Helper()
	root, err := exec.Command("go", "env", "GOROOT").Output()
	dir := filepath.Join(strings.TrimSpace(string(root)), "src")
	if err == nil {
		_, err = os.Stat(filepath.Join(dir, "fmt"))
	}
	if err != nil {
		tb.Skipf("no Go distribution with its source: %v", err)
	}
	return dir
}

// readOnly walks a tree in one goroutine with fs.WalkDir and reads each wanted
// file whole, in as many workers as a scan has. It does nothing with what it has
// read. reader makes what a worker reads with.
func readOnly(tb testing.TB, tree fs.FS, wanted func(string) bool, reader func() func(name string) ([]byte, error)) (bytes int64) {
	names := make(chan string, 256)
	workers := runtime.GOMAXPROCS(0)
	sums := make([]int64, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			read := reader()
			for name := range names {
				src, err := read(name)
				if err != nil {
					tb.Error(err)
				}
				sums[w] += int64(len(src))
			}
		})
	}
	err := fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() && wanted(name) {
			names <- name
		}
		return err
	})
	close(names)
	wg.Wait()
	if err != nil {
		tb.Error(err)
	}
	for _, n := range sums {
		bytes += n
	}
	return bytes
}

// hugeFiles lists the files that a scan reads the beginning of alone.
func hugeFiles(tb testing.TB, tree fs.FS) map[string]bool {
	huge := map[string]bool{}
	err := fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		info, err := d.Info()
		huge[name] = err == nil && info.Size() > hugeBytes
		return err
	})
	if err != nil {
		tb.Fatal(err)
	}
	return huge
}

// BenchmarkScan scans the Go distribution's source and, in the same run, walks
// it and only reads: ratio is the scan's rate by that of reading with fs.ReadFile,
// bare-ratio by that of reading as the scan does: Open, Read up to the end into one
// buffer a worker, Close. Each counts at its fastest, so that what else the machine
// does weighs little. All read the same files with as many workers; the scan does
// not count those that are generated.
func BenchmarkScan(b *testing.B) {
	tree := os.DirFS(goSource(b))
	isGo := func(name string) bool {
		return filepath.Ext(name) == ".go" && !slices.ContainsFunc(strings.Split(path.Dir(name), "/"), vendored)
	}
	bare := func() func(string) ([]byte, error) {
		w := &worker{buffer: make([]byte, hugeBytes+1)}
		return func(name string) ([]byte, error) { return w.read(tree, name) }
	}
	huge := hugeFiles(b, tree)
	standard := func() func(string) ([]byte, error) {
		beginning := bare() // more of a huge file is not read by the scan
		return func(name string) ([]byte, error) {
			if huge[name] {
				return beginning(name)
			}
			return fs.ReadFile(tree, name)
		}
	}
	const never = time.Duration(math.MaxInt64)
	fastest := [3]time.Duration{never, never, never}
	for b.Loop() {
		from := b.Elapsed()
		lap := func(i int) {
			now := b.Elapsed()
			fastest[i], from = min(fastest[i], now-from), now
		}
		read := readOnly(b, tree, isGo, standard)
		lap(0)
		if n := readOnly(b, tree, isGo, bare); n != read {
			b.Fatalf("read %d bytes and %d", read, n)
		}
		lap(1)
		s := NewScan(ScanOptions{Languages: []string{"go"}})
		if err := s.Add(context.Background(), tree, "."); err != nil {
			b.Fatal(err)
		}
		lap(2)
		if s.Bytes < read/3 {
			b.Fatalf("counted %d bytes of %d", s.Bytes, read)
		}
	}
	b.ReportMetric(fastest[0].Seconds()/fastest[2].Seconds(), "ratio")
	b.ReportMetric(fastest[1].Seconds()/fastest[2].Seconds(), "bare-ratio")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkCodeView, BenchmarkStrokes (with the view) and BenchmarkTokens (with
// both) tell where the time of a scan goes.
func BenchmarkCodeView(b *testing.B) {
	sources, size := goFiles(b)
	view := []byte{}
	lang := NewScan(ScanOptions{}).languages.Named("go")
	b.SetBytes(size)
	for b.Loop() {
		for _, src := range sources {
			view = lang.View(view[:0], src)
		}
	}
}

func BenchmarkStrokes(b *testing.B) { benchmarkCount(b, false) }
func BenchmarkTokens(b *testing.B)  { benchmarkCount(b, true) }

func benchmarkCount(b *testing.B, tokens bool) {
	sources, size := goFiles(b)
	c := counterOf(NewScan(ScanOptions{}).languages.Named("go"))
	b.SetBytes(size)
	var view []byte
	for b.Loop() {
		for _, src := range sources {
			view = c.add(src, 0, tokens, view)
		}
	}
}

// goFiles reads a good part of the Go distribution's source.
func goFiles(b *testing.B) (sources [][]byte, size int64) {
	files, err := filepath.Glob(filepath.Join(goSource(b), "*/*.go"))
	if err != nil {
		b.Fatal(err)
	}
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			b.Fatal(err)
		}
		sources = append(sources, src)
		size += int64(len(src))
	}
	return sources, size
}

// twice is a tree that has another one two times, as 1 and 2.
type twice struct{ fs.FS }

func (t twice) Open(name string) (fs.File, error) {
	if name == "." {
		return nil, fs.ErrInvalid // it is only listed
	}
	_, below, deeper := strings.Cut(name, "/")
	if !deeper {
		below = "."
	}
	return t.FS.Open(below)
}

func (t twice) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == "." {
		root, err := fs.Stat(t.FS, ".")
		return []fs.DirEntry{named{fs.FileInfoToDirEntry(root), "1"}, named{fs.FileInfoToDirEntry(root), "2"}}, err
	}
	_, below, deeper := strings.Cut(name, "/")
	if !deeper {
		below = "."
	}
	return fs.ReadDir(t.FS, below)
}

func (t twice) Stat(string) (fs.FileInfo, error) { return fs.Stat(t.FS, ".") }

type named struct {
	fs.DirEntry
	name string
}

func (n named) Name() string { return n.name }

// BenchmarkScanTwice scans the Go distribution's source once and, in the same
// run, twice over: times should be 2, and memory, what a scan holds on to in
// the end, 1.
func BenchmarkScanTwice(b *testing.B) {
	tree := os.DirFS(goSource(b))
	var times, memory []float64
	for b.Loop() {
		start := b.Elapsed()
		once, small := scanned(b, tree)
		middle := b.Elapsed()
		double, large := scanned(b, twice{tree})
		times = append(times, (b.Elapsed()-middle).Seconds()/(middle-start).Seconds())
		memory = append(memory, float64(large)/float64(small))
		if double != 2*once {
			b.Fatalf("%d files once, %d twice", once, double)
		}
	}
	slices.Sort(times)
	slices.Sort(memory)
	b.ReportMetric(times[len(times)/2], "times")
	b.ReportMetric(memory[len(memory)/2], "memory")
	b.ReportMetric(0, "ns/op")
}

// scanned scans a tree and returns the number of files and the bytes held.
func scanned(b *testing.B, tree fs.FS) (files int64, held uint64) {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	s := NewScan(ScanOptions{})
	if err := s.Add(context.Background(), tree, "."); err != nil {
		b.Fatal(err)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(s)
	return s.Files, after.HeapAlloc - before.HeapAlloc
}
