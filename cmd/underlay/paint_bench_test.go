//go:build unix

package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"underlay/drills/board"
	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

// The time from the start of the program to its first picture: with a journal
// of five years and its cache, without a journal, and of a program that paints one
// screen with tcell and does nothing else, in turn in one run. The goal is less
// than 100 ms more than that.
func BenchmarkFirstPaint(b *testing.B) {
	old, fresh := b.TempDir(), b.TempDir()
	fiveYears(b, old)
	paint := func(home, name, text string, args ...string) time.Duration {
		start := time.Now()
		c := open(b, 80, 24, home, nil, name, args...)
		c.see(text)
		took := time.Since(start)
		c.send("\x03")
		if err := c.end(); err != nil {
			b.Fatal(err)
		}
		c.close()
		return took
	}
	start := time.Now()
	paint(old, "underlay", "Enter start")
	uncached := time.Since(start)
	var years, new, bare []time.Duration
	for b.Loop() {
		years = append(years, paint(old, "underlay", "Enter start"))
		new = append(new, paint(fresh, "underlay", "Enter start"))
		bare = append(bare, paint(fresh, "bare-paint", "painted"))
	}
	b.ReportMetric(float64(uncached.Milliseconds()), "ms-without-cache")
	b.ReportMetric(float64(middle(years).Microseconds())/1e3, "ms-five-years")
	b.ReportMetric(float64(middle(new).Microseconds())/1e3, "ms-new")
	b.ReportMetric(float64(middle(bare).Microseconds())/1e3, "ms-bare")
}

// fiveYears writes five years of invented practice on split-38 below a home
// directory: 1.5 million strokes.
func fiveYears(b *testing.B, home string) {
	b.Helper()
	split, err := board.Load("split-38")
	if err != nil {
		b.Fatal(err)
	}
	y := journaltest.Five()
	y.Start = time.Now().AddDate(0, 0, -y.Days)
	y.Board = journal.Board{Name: split.Name, Hash: split.Hash(), Source: string(split.Source())}
	y.Strokes = nil
	for _, s := range split.Symbols() {
		if st, ok := split.Drilled(s); ok && s.IsCharacter() && s <= "~" {
			y.Strokes = append(y.Strokes, [2]string{string(s), st.String()})
		}
	}
	dir := filepath.Join(home, ".local/share/underlay/journal")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		b.Fatal(err)
	}
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
}
