package course

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// fiveYears writes five years of invented practice on split-38 into a
// directory: 1.5 million strokes.
func fiveYears(b *testing.B, c *Course) fs.FS {
	b.Helper()
	split := c.config.Boards[0]
	y := journaltest.Five()
	y.Board = journal.Board{Name: split.Name, Hash: split.Hash(), Source: string(split.Source())}
	y.Strokes = nil
	for id := range c.strokes.all {
		if st := c.strokes.all[id]; st.Board == 0 {
			y.Strokes = append(y.Strokes, [2]string{string(st.Symbol), st.Stroke.String()})
		}
	}
	dir := b.TempDir()
	f, err := os.Create(filepath.Join(dir, y.Machine+".journal"))
	if err != nil {
		b.Fatal(err)
	}
	if _, err := y.Write(f); err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
	return os.DirFS(dir)
}

// A start with a journal of five years: without the cache, and with it. The
// goal with it is less than 100 ms more than without a journal.
func BenchmarkRecall(b *testing.B) {
	empty := embedded(b, nil)
	dir := fiveYears(b, empty)
	past := Past{Journal: dir, Cache: journal.Cache{Store: journal.NewDisk(b.TempDir()), Name: "skill"}}
	with := func(c *Config) { c.Past = past }
	var first *Course
	b.Run("without-cache", func(b *testing.B) {
		for b.Loop() {
			first = embedded(b, func(c *Config) { c.Past.Journal = dir })
		}
	})
	first = embedded(b, with)
	if err := first.Keep(); err != nil {
		b.Fatal(err)
	}
	b.Run("with-cache", func(b *testing.B) {
		for b.Loop() {
			if c := embedded(b, with); c.past.fresh != 0 {
				b.Fatalf("%d drills were read again", c.past.fresh)
			}
		}
	})
	b.Run("no-journal", func(b *testing.B) {
		for b.Loop() {
			embedded(b, nil)
		}
	})
}
