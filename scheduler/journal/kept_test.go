package journal_test

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"underlay/scheduler/journal"
)

// kept is the directory of journals that are kept: whatever becomes of the
// program, they have to be read as they are now. Their checksums were computed by other code
// than the program's.
const kept = "../../testdata/journals"

// Each kept journal says today what it has said: which drills, of which sessions,
// and what cannot be read, with its place.
func TestKeptJournals(t *testing.T) {
	for dir, want := range map[string]struct{ drills, problems, struck string }{
		"good":         {"mm7k01aa/token mm7k01aa/own mm8z55bb/probe", "", ""},
		"torn":         {"mm7k01aa/token mm7k01aa/own", "desk.journal:5 torn", ""},
		"damaged":      {"mm7k01aa/token mm8z55bb/probe", "desk.journal:4 bad, desk.journal:5 bad", ""},
		"newer":        {"mm7k01aa/token", "desk.journal:4 newer", ""},
		"two-machines": {"mm7k01aa/token mm7p77dd/position", "", "mm8z55bb"},
		"unknown":      {"mm9q10cc/pair mm8z55bb/probe", "", ""}, // one file keeps its order, whatever the times
	} {
		files := os.DirFS(filepath.Join(kept, dir))
		h, err := journal.Read(files)
		must(t, err)
		var drills, problems []string
		for d := range h.Drills(journal.Position{}) {
			drills = append(drills, d.Session+"/"+d.Kind)
		}
		must(t, h.Err())
		for _, p := range h.Problems() {
			problems = append(problems, fmt.Sprintf("%s:%d %s", p.File, p.Line, p.Kind))
		}
		report, err := journal.Verify(files)
		must(t, err)
		if got := join(drills); got != want.drills {
			t.Errorf("%s: drills %s", dir, got)
		}
		if got := strings.Join(problems, ", "); got != want.problems {
			t.Errorf("%s: problems %s", dir, got)
		}
		if join(report.Struck) != want.struck || len(report.NoBoard) > 0 {
			t.Errorf("%s: %+v", dir, report)
		}
	}
}

// The kept file is what the program writes: all that was read of it, written again, is
// the same to the byte, and fits the checksums as the standard library has them.
func TestKeptFileIsAsWritten(t *testing.T) {
	b, err := os.ReadFile(filepath.Join(kept, "good", "desk.journal"))
	must(t, err)
	h, err := journal.Read(os.DirFS(filepath.Join(kept, "good")))
	must(t, err)
	boards, err := h.Boards()
	must(t, err)
	zone := time.FixedZone("", 3600)
	records := []journal.Record{journal.Header{At: time.Date(2026, 3, 1, 18, 4, 5, 678e6, zone), Version: 1, Machine: "desk"}, boards["5e1fb0a7c2d4"]}
	for d := range h.Drills(journal.Position{}) {
		records = append(records, d)
	}
	records = append(records, journal.Strike{At: time.Date(2026, 3, 2, 19, 0, 0, 0, zone), Session: "mm7k01aa"},
		journal.Strike{At: time.Date(2026, 3, 2, 19, 1, 0, 0, zone), Session: "mm7k01aa", Undo: true})
	var again bytes.Buffer
	for _, r := range records {
		line, err := journal.Encode(r)
		must(t, err)
		again.Write(line)
		if sum := fmt.Sprintf("%08x", crc32.Checksum(line[9:len(line)-1], crc32.MakeTable(crc32.Castagnoli))); sum != string(line[:8]) {
			t.Errorf("the checksum of %s is %s", line, sum)
		}
	}
	if !bytes.Equal(again.Bytes(), b) {
		t.Errorf("kept is\n%s\nwritten would be\n%s", b, again.Bytes())
	}
}

// What a kept drill holds, key by key.
func TestKeptDrill(t *testing.T) {
	h, err := journal.Read(os.DirFS(filepath.Join(kept, "good")))
	must(t, err)
	var all []journal.Drill
	for d := range h.Drills(journal.Position{}) {
		all = append(all, d)
	}
	d := all[0]
	want := []journal.Key{
		{Symbol: "(", Stroke: "r2c1:hold r1c1", MS: 812.4, Flags: journal.First | journal.Helped},
		{Symbol: `"`, Stroke: "r2c1:hold r1c3", MS: 640, Got: "c", Lost: 900.5, Slip: "layer"},
		{Symbol: "=", Stroke: "r2c1:hold r1c2", MS: 455.1, Flags: journal.AfterSlip},
		{Symbol: "a", Stroke: "r1c1", MS: 188},
		{Symbol: "=", Stroke: "r2c1:hold r1c2", MS: 1203.7, Flags: journal.Repair | journal.Paused},
	}
	if !reflect.DeepEqual(d.Keys, want) {
		t.Errorf("keys %+v", d.Keys)
	}
	if d.At.Format(time.RFC3339Nano) != "2026-03-01T18:04:10+01:00" || d.Hash != "5e1fb0a7c2d4" || d.Block != "new" || d.Language != "go" || d.Treatment != "wait" || d.Unordered || !all[1].Unordered {
		t.Errorf("%+v", d)
	}
	if _, offset := all[2].At.Zone(); offset != -5*3600 || all[1].Keys[3].Symbol != "é" {
		t.Errorf("%+v", all[1:])
	}
}
