package journal_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// onDisk writes an invented history of so many days and returns its directory.
func onDisk(b *testing.B, days int) (dir string, strokes int) {
	dir = b.TempDir()
	f, err := os.Create(filepath.Join(dir, "invented.journal"))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	y := journaltest.Five()
	y.Days = days
	if strokes, err = y.Write(f); err != nil {
		b.Fatal(err)
	}
	return dir, strokes
}

// Reading one year and five (1.5 million strokes). The time a stroke shall be
// the same, and the memory in use too.
func BenchmarkRead(b *testing.B) {
	for _, days := range []int{365, 1826} {
		b.Run(fmt.Sprintf("days=%d", days), func(b *testing.B) {
			dir, strokes := onDisk(b, days)
			var most, m runtime.MemStats
			for b.Loop() {
				h, err := journal.Read(os.DirFS(dir))
				if err != nil {
					b.Fatal(err)
				}
				n, drills := 0, 0
				for d := range h.Drills(journal.Position{}) {
					n += len(d.Keys)
					if drills++; drills%4096 == 0 {
						if runtime.ReadMemStats(&m); m.HeapAlloc > most.HeapAlloc {
							most = m
						}
					}
				}
				if n != strokes || len(h.Problems()) > 0 || h.Err() != nil {
					b.Fatal(n, h.Problems(), h.Err())
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*strokes), "ns/stroke")
			b.ReportMetric(float64(most.HeapAlloc)/1e6, "MB-heap")
		})
	}
}

// Going on after five years with what a cache kept, when nothing is new.
func BenchmarkGoOn(b *testing.B) {
	dir, _ := onDisk(b, 1826)
	c := journal.Cache{Store: journal.NewDisk(b.TempDir()), Name: "derived"}
	h, err := journal.Read(os.DirFS(dir))
	if err != nil {
		b.Fatal(err)
	}
	for range h.Drills(journal.Position{}) {
	}
	if err := c.Save("k", h.Position(), make([]byte, 1<<20)); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		h, err := journal.Read(os.DirFS(dir))
		if err != nil {
			b.Fatal(err)
		}
		data, from := c.Load("k", h)
		for range h.Drills(from) {
			b.Fatal("there is something new")
		}
		if len(data) != 1<<20 {
			b.Fatal("the cache was of no use")
		}
	}
}

// The first record after five years looks through the file once; later ones do not.
func BenchmarkAppend(b *testing.B) {
	for _, days := range []int{1, 1826} {
		b.Run(fmt.Sprintf("days=%d", days), func(b *testing.B) {
			dir, _ := onDisk(b, days)
			j, err := journal.Open(journal.NewDisk(dir), "invented")
			if err != nil {
				b.Fatal(err)
			}
			defer j.Close()
			for b.Loop() {
				if err := j.Append(drill(1)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
