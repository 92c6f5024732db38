package journal_test

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"underlay/scheduler/journal"
	"underlay/scheduler/journal/journaltest"
)

func open(t *testing.T, s journal.Store) *journal.Journal {
	t.Helper()
	j, err := journal.Open(s, "m")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	return j
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestOneWriteAndOneSyncARecord(t *testing.T) {
	s := &journaltest.Store{}
	j := open(t, s)
	if len(s.Files) > 0 {
		t.Errorf("opening made %d files", len(s.Files))
	}
	for i := range 5 {
		must(t, j.Append(drill(i)))
		if s.Writes != i+1 || s.Syncs != i+1 || s.DirSyncs != 1 {
			t.Errorf("after %d records: %d writes, %d syncs, %d syncs of the directory", i+1, s.Writes, s.Syncs, s.DirSyncs)
		}
	}
}

func TestBoardIsWrittenOnce(t *testing.T) {
	s := &journaltest.Store{}
	b := journal.Board{At: start(), Name: "b", Hash: "h", Source: "x = 1\n"}
	for range 2 { // two runs of the program
		j := open(t, s)
		must(t, j.Append(b))
		must(t, j.Append(b))
		must(t, j.Append(drill(1)))
		must(t, j.Close())
	}
	other := b
	other.Hash = "h2"
	must(t, open(t, s).Append(other))
	if n := strings.Count(string(s.Files["m.journal"]), `"kind":"board"`); n != 2 {
		t.Errorf("%d boards were written, want 2", n)
	}
	if n := strings.Count(string(s.Files["m.journal"]), `"kind":"header"`); n != 1 {
		t.Errorf("%d headers were written, want 1", n)
	}
	h, err := journal.Read(s.FS())
	must(t, err)
	boards, err := h.Boards()
	must(t, err)
	if boards["h"] != b || boards["h2"] != other || len(boards) != 2 {
		t.Errorf("boards are %v", boards)
	}
}

func TestSecondInstanceChangesNothing(t *testing.T) {
	s := &journaltest.Store{}
	j := open(t, s)
	must(t, j.Append(drill(0)))
	before := string(s.Files["m.journal"])
	if _, err := journal.Open(s, "m"); !errors.Is(err, journal.ErrLocked) {
		t.Errorf("a second instance is told %v", err)
	}
	if string(s.Files["m.journal"]) != before {
		t.Error("a second instance changed the journal")
	}
	must(t, j.Close())
	open(t, s)
}

// A disk that takes k more bytes, for every k: what was said to be saved is
// there, what was not is not, and a second try writes it once.
func TestFullDiskAtEveryByte(t *testing.T) {
	line, err := journal.Encode(drill(1))
	must(t, err)
	for _, stuck := range []bool{false, true} { // the rest can, or cannot, be cut off at once
		for space := range len(line) {
			s := &journaltest.Store{}
			j := open(t, s)
			must(t, j.Append(drill(0)))
			s.Limited, s.Space = true, space
			if stuck {
				s.TruncateErr = errors.New("the disk is gone")
			}
			for range 2 {
				if err := j.Append(drill(1)); err == nil {
					t.Fatalf("%d bytes fit, and all was said to be saved", space)
				}
				if names, _ := sessions(t, s.FS().(fstest.MapFS)); join(names) != "d0" {
					t.Fatalf("%d bytes fit: read %q", space, names)
				}
			}
			s.Limited, s.TruncateErr = false, nil
			must(t, j.Append(drill(1)))
			must(t, j.Append(drill(2)))
			names, problems := sessions(t, s.FS().(fstest.MapFS))
			if join(names) != "d0 d1 d2" || len(problems) > 0 || len(s.Files) != 1 {
				t.Fatalf("%d bytes fit, then all: read %q, %v, %d files", space, names, problems, len(s.Files))
			}
			must(t, j.Close())
		}
	}
}

func TestFirstRecordOnAFullDisk(t *testing.T) {
	for space := range 200 {
		s := &journaltest.Store{Limited: true, Space: space}
		j := open(t, s)
		if err := j.Append(drill(0)); err == nil {
			t.Fatalf("%d bytes were enough", space)
		}
		s.Limited = false
		must(t, j.Append(drill(0)))
		if names, problems := sessions(t, s.FS().(fstest.MapFS)); join(names) != "d0" || len(problems) > 0 {
			t.Fatalf("%d bytes fit, then all: read %q, %v", space, names, problems)
		}
	}
}

func TestFailedSyncIsNotSaved(t *testing.T) {
	for _, stuck := range []error{nil, errors.New("the disk is gone")} {
		s := &journaltest.Store{}
		j := open(t, s)
		must(t, j.Append(drill(0)))
		s.SyncErr, s.TruncateErr = errors.New("input/output error"), stuck
		for range 3 {
			if err := j.Append(drill(1)); err == nil {
				t.Error("said to be saved after a failed sync")
			}
		}
		s.SyncErr, s.TruncateErr = nil, nil
		must(t, j.Append(drill(1)))
		if names, problems := sessions(t, s.FS().(fstest.MapFS)); join(names) != "d0 d1" || len(problems) > 0 {
			t.Errorf("read %q, %v", names, problems)
		}
	}
}

func TestDirectoryHasToBeSynced(t *testing.T) {
	s := &journaltest.Store{SyncDirErr: errors.New("input/output error")}
	j := open(t, s)
	for range 2 {
		if err := j.Append(drill(0)); err == nil {
			t.Error("said to be saved in a file whose name may vanish")
		}
	}
	s.SyncDirErr = nil
	must(t, j.Append(drill(0)))
	if names, _ := sessions(t, s.FS().(fstest.MapFS)); join(names) != "d0" {
		t.Errorf("read %q", names)
	}
}

// A torn line is cut only after it was kept.
func TestTornLineIsNotCutUnkept(t *testing.T) {
	s := newSample(t, 2)
	cut := s.bytes[:len(s.bytes)-5]
	store := &journaltest.Store{Files: map[string][]byte{"m.journal": cut}, ReplaceErr: journaltest.ErrFull}
	j := open(t, store)
	if err := j.Append(drill(5)); !errors.Is(err, journaltest.ErrFull) {
		t.Errorf("appending says %v", err)
	}
	if string(store.Files["m.journal"]) != string(cut) {
		t.Error("the torn line is gone")
	}
	store.ReplaceErr = nil
	must(t, j.Append(drill(5)))
	if names, _ := sessions(t, store.FS().(fstest.MapFS)); join(names) != "d0 d5" {
		t.Errorf("read %q", names)
	}
}

func TestTwoTornLinesOfTheSameTime(t *testing.T) {
	s := newSample(t, 1)
	store := &journaltest.Store{Files: map[string][]byte{"m.journal": s.bytes[:len(s.bytes)-5]}}
	appendOne(t, store, drill(5))
	store.Files["m.journal"] = append(store.Files["m.journal"], "half"...)
	appendOne(t, store, drill(5))
	if string(store.Files["m.20260301T180500Z-2.torn"]) != "half" || len(store.Files) != 3 {
		t.Errorf("files: %q", store.Files)
	}
}

// Another program has put another file in the place of the journal.
func TestFileThatWasReplaced(t *testing.T) {
	s := newSample(t, 3)
	for name, data := range map[string][]byte{"longer": s.bytes, "torn": s.bytes[:len(s.bytes)-7], "gone": nil, "short": s.bytes[:s.ends[0]]} {
		store := &journaltest.Store{}
		j := open(t, store)
		must(t, j.Append(journal.Board{At: start(), Hash: "h0"}))
		must(t, j.Append(drill(7)))
		store.Files["m.journal"] = append([]byte(nil), data...)
		before, _ := sessions(t, store.FS().(fstest.MapFS))
		must(t, j.Append(journal.Board{At: start(), Hash: "h0"}))
		must(t, j.Append(drill(8)))
		names, problems := sessions(t, store.FS().(fstest.MapFS))
		if join(names) != join([]string{join(before), "d8"}) || len(problems) > 0 {
			t.Errorf("%s: read %q, %v", name, names, problems)
		}
		h, err := journal.Read(store.FS())
		must(t, err)
		if boards, err := h.Boards(); err != nil || boards["h0"].Hash != "h0" {
			t.Errorf("%s: the board is not in the file that its drill is in", name)
		}
	}
}

func TestNewerVersionIsRefusedUntouched(t *testing.T) {
	newer, err := journal.Encode(journal.Header{At: start(), Version: 2, Machine: "m"})
	must(t, err)
	s := newSample(t, 2)
	for name, data := range map[string][]byte{
		"first line": append(append([]byte(nil), newer...), "future bytes"...),
		"later line": append(append([]byte(nil), s.bytes...), newer...),
	} {
		store := &journaltest.Store{Files: map[string][]byte{"m.journal": data}}
		j, err := journal.Open(store, "m")
		if err == nil {
			err = j.Append(drill(5))
		}
		var refused *journal.NewerError
		if !errors.As(err, &refused) || refused.Version != 2 {
			t.Errorf("%s: told %v", name, err)
		}
		if string(store.Files["m.journal"]) != string(data) || len(store.Files) != 1 {
			t.Errorf("%s: the journal was touched", name)
		}
		_, problems := sessions(t, store.FS().(fstest.MapFS))
		if len(problems) != 1 || problems[0].Kind != journal.Newer {
			t.Errorf("%s: problems are %v", name, problems)
		}
		if report, err := journal.Verify(store.FS()); err != nil || report.Good() {
			t.Errorf("%s: verify says %+v, %v", name, report, err)
		}
	}
}

// After a first open that was refused the lock is free again.
func TestRefusedOpenGivesTheLockBack(t *testing.T) {
	newer, err := journal.Encode(journal.Header{At: start(), Version: 2})
	must(t, err)
	store := &journaltest.Store{Files: map[string][]byte{"m.journal": newer}}
	if _, err := journal.Open(store, "m"); err == nil {
		t.Fatal("a newer version was opened")
	}
	delete(store.Files, "m.journal")
	open(t, store)
}

func TestNameOfMachineIsChecked(t *testing.T) {
	for _, name := range []string{"", "../x", "A", "a b", strings.Repeat("a", 65)} {
		if _, err := journal.Open(&journaltest.Store{}, name); err == nil {
			t.Errorf("%q is taken for a machine's name", name)
		}
	}
}
