package journal_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// fiveYears is a directory with five years of one machine.
func fiveYears(tb testing.TB, y journaltest.Years) fstest.MapFS {
	var b bytes.Buffer
	if _, err := y.Write(&b); err != nil {
		tb.Fatal(err)
	}
	return fstest.MapFS{y.Machine + ".journal": {Data: b.Bytes()}}
}

// Reading five years, 1.5 million strokes.
func BenchmarkFiveYears(b *testing.B) {
	dir := fiveYears(b, journaltest.Five())
	b.SetBytes(int64(len(dir["invented.journal"].Data)))
	b.ReportAllocs()
	for b.Loop() {
		h, err := journal.Read(dir)
		if err != nil {
			b.Fatal(err)
		}
		n := 0
		for d := range h.Drills(journal.Position{}) {
			n += len(d.Keys)
		}
		if n < 1_500_000 || len(h.Problems()) > 0 {
			b.Fatal(n, h.Problems())
		}
	}
}
