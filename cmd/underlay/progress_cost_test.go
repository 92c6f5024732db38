//go:build unix

package main

import (
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// BenchmarkProgressProcess measures the whole program over five years, from
// its start to its end: the best of some runs, since others use the machine as
// well, the time on the processors, and the most memory it held (ru_maxrss: kilobytes on
// Linux, bytes on macOS). The figures to reach are 60 ms with a cache, 5 s
// without one, and 100 MB.
func BenchmarkProgressProcess(b *testing.B) {
	e := home(b, 1826)
	once := func() (wall, cpu time.Duration, rss int64) {
		c := exec.Command("underlay", "progress", "--json")
		c.Env = c.Environ()
		for name, dir := range map[string]string{"XDG_CONFIG_HOME": e.Dirs.Config, "XDG_DATA_HOME": e.Dirs.Data, "XDG_STATE_HOME": e.Dirs.State, "XDG_CACHE_HOME": e.Dirs.Cache} {
			c.Env = append(c.Env, name+"="+filepath.Dir(dir))
		}
		start := time.Now()
		if out, err := c.Output(); err != nil || len(out) < 500_000 {
			b.Fatalf("%d bytes: %v", len(out), err)
		}
		p := c.ProcessState
		return time.Since(start), p.UserTime() + p.SystemTime(), p.SysUsage().(*syscall.Rusage).Maxrss
	}
	least := func(runs int, before func()) (wall, cpu time.Duration, rss int64) {
		wall, cpu = time.Hour, time.Hour
		for range runs {
			before()
			w, c, r := once()
			wall, cpu, rss = min(wall, w), min(cpu, c), max(rss, r)
		}
		return wall, cpu, rss
	}
	for range b.N {
		wall, cpu, rss := least(2, func() { clearCache(b, e) })
		b.ReportMetric(wall.Seconds(), "s-anew")
		b.ReportMetric(cpu.Seconds(), "cpu-s-anew")
		again, cpuAgain, rssAgain := least(12, func() {})
		b.ReportMetric(again.Seconds()*1000, "ms-cached")
		b.ReportMetric(cpuAgain.Seconds()*1000, "cpu-ms-cached")
		b.ReportMetric(float64(max(rss, rssAgain))/1024, "MB-most")
	}
	b.ReportMetric(0, "ns/op")
}

// The time of progress grows with the journal's length and no faster: twice
// the days take about twice the time on the processors. What takes the same time
// for any journal is measured with one day and left off.
func BenchmarkProgressIsLinear(b *testing.B) {
	spent := func() time.Duration {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Fatal(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	took := func(days int) time.Duration {
		e, least := home(b, days), time.Hour
		for range 3 {
			clearCache(b, e)
			start := spent()
			progressJSON(b, e)
			least = min(least, spent()-start)
		}
		return least
	}
	for range b.N {
		fixed := took(1)
		b.ReportMetric(float64(took(720)-fixed)/float64(took(360)-fixed), "ratio")
	}
	b.ReportMetric(0, "ns/op")
}
