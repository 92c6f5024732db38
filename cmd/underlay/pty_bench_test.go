//go:build unix

package main

import (
	"slices"
	"strings"
	"testing"
	"time"

	"underlay/drills/board"
)

// The median time from a key to a changed screen, against a program that shows
// the key with tcell and does nothing else, the two in turn in one run. The
// goal is at most 1.3 times as long.
func BenchmarkRoundTrip(b *testing.B) {
	y := &typist{console: open(b, 120, 40, b.TempDir(), nil, "underlay", "today", "--minutes", "120")}
	y.begin("120 minutes today")
	y.send("\r")
	y.see(" pause")
	echo := open(b, 120, 40, b.TempDir(), nil, "bare-echo")
	echo.until("the terminal to be taken", func() bool { return strings.Contains(string(echo.raw), "\x1b[?1049h") })
	var ours, bare []time.Duration
	for b.Loop() {
		if !y.drilling() {
			y.goOn()
			continue
		}
		if s := y.ready(); s != board.Escape { // which tcell holds back
			ours = append(ours, y.roundTrip(bytesOf(b, s)))
		} else {
			y.stroke()
		}
		bare = append(bare, echo.roundTrip("x"))
	}
	us, them := middle(ours), middle(bare)
	b.ReportMetric(float64(us.Microseconds()), "µs-underlay")
	b.ReportMetric(float64(them.Microseconds()), "µs-echo")
	b.ReportMetric(float64(us)/float64(max(1, them)), "ratio")
}

func middle(x []time.Duration) time.Duration {
	if len(x) == 0 {
		return 0
	}
	slices.Sort(x)
	return x[len(x)/2]
}
