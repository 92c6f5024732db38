package journal_test

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"underlay/scheduler/journal"
)

func TestModes(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has no modes")
	}
	top := t.TempDir()
	dir := filepath.Join(top, "data", "underlay", "journal")
	j := open(t, journal.NewDisk(dir))
	must(t, j.Append(drill(0)))
	must(t, j.Close())
	must(t, os.WriteFile(filepath.Join(dir, "m.journal"), append(read(t, dir), "half"...), 0o600))
	must(t, open(t, journal.NewDisk(dir)).Append(drill(1)))
	seen := 0
	must(t, filepath.WalkDir(top, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := os.Stat(path)
		if path == top || err != nil {
			return err
		}
		seen++
		want := fs.FileMode(0o600)
		if e.IsDir() {
			want = 0o700
		}
		if info.Mode().Perm() != want {
			t.Errorf("%s has the mode %o, want %o", path, info.Mode().Perm(), want)
		}
		return nil
	}))
	if seen != 3+3 { // directories; journal, lock, torn
		t.Errorf("%d files and directories were made, want 6", seen)
	}
}

func read(t *testing.T, dir string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(dir, "m.journal"))
	must(t, err)
	return b
}

func TestDirectoryThatIsNotThereReadsAsEmpty(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "nowhere")
	h, err := journal.Read(journal.NewDisk(dir).FS())
	must(t, err)
	for range h.Drills(journal.Position{}) {
		t.Error("there is something in it")
	}
	must(t, h.Err())
	if _, err := os.Stat(dir); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("reading made it: %v", err)
	}
}

func TestReadOnlyDirectory(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	must(t, os.WriteFile(file, nil, 0o600))
	if _, err := journal.Open(journal.NewDisk(filepath.Join(file, "journal")), "m"); err == nil {
		t.Error("a directory was made below a file")
	}
}

func TestMachineIsMadeUpOnce(t *testing.T) {
	state := filepath.Join(t.TempDir(), "state", "underlay")
	names := make([]string, 8)
	var all sync.WaitGroup
	for i := range names {
		all.Go(func() {
			name, err := journal.Machine(state)
			if err != nil {
				t.Error(err)
			}
			names[i] = name
		})
	}
	all.Wait()
	for _, n := range names {
		if n != names[0] || len(n) != 16 {
			t.Fatalf("names are %q", names)
		}
	}
	other, err := journal.Machine(t.TempDir())
	must(t, err)
	if other == names[0] {
		t.Error("two machines have the same name")
	}
}

func TestMachineFileOfRubbish(t *testing.T) {
	state := t.TempDir()
	must(t, os.WriteFile(filepath.Join(state, "machine"), []byte("../../etc\x1b[2J\n"), 0o600))
	_, err := journal.Machine(state)
	if err == nil || !strings.Contains(err.Error(), `"../../etc\x1b[2J"`) {
		t.Errorf("told %v", err)
	}
}

// childVar makes the test binary one that appends to the journal in the
// directory that it names, until it is killed.
const childVar = "UNDERLAY_TEST_APPEND_TO"

func TestMain(m *testing.M) {
	if dir := os.Getenv(childVar); dir != "" {
		appendForever(dir)
	}
	os.Exit(m.Run())
}

// appendForever tells on standard output what was said to be saved.
func appendForever(dir string) {
	j, err := journal.Open(journal.NewDisk(dir), "m")
	for i := 0; err == nil; i++ {
		d := drill(i)
		d.Session = fmt.Sprintf("%d-%d", os.Getpid(), i)
		if err = j.Append(d); err == nil {
			fmt.Println(d.Session)
		}
	}
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// A process is killed while it appends, at moments that differ: all that was
// said to be saved is there, and at most one more.
func TestKilledWhileAppending(t *testing.T) {
	dir := t.TempDir()
	var saved []string
	for round := range 12 {
		told := killAfter(t, dir, 1+round*3)
		saved = append(saved, told...)
		h, err := journal.Read(os.DirFS(dir))
		must(t, err)
		got := map[string]bool{}
		for d := range h.Drills(journal.Position{}) {
			got[d.Session] = true
		}
		must(t, h.Err())
		for _, s := range saved {
			if !got[s] {
				t.Fatalf("round %d: %s was said to be saved and is gone", round, s)
			}
		}
		if len(got) > len(saved)+round+1 {
			t.Errorf("round %d: %d were saved and %d are there", round, len(saved), len(got))
		}
		for _, p := range h.Problems() {
			if p.Kind != journal.Torn {
				t.Errorf("round %d: %v", round, p)
			}
		}
	}
}

// killAfter starts a process that appends, kills it after it told of n records,
// and returns those that it told of.
func killAfter(t *testing.T, dir string, n int) (told []string) {
	t.Helper()
	self, err := os.Executable()
	must(t, err)
	child := exec.Command(self)
	child.Env = append(os.Environ(), childVar+"="+dir)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	must(t, err)
	must(t, child.Start())
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		told = append(told, lines.Text())
		if len(told) == n {
			secondInstance(t, dir)
			must(t, child.Process.Kill())
		}
	}
	child.Wait() // killed
	if len(told) < n {
		t.Fatalf("the process ended after %d records", len(told))
	}
	return told
}

// secondInstance is told that another one is at work.
func secondInstance(t *testing.T, dir string) {
	t.Helper()
	if _, err := journal.Open(journal.NewDisk(dir), "m"); !errors.Is(err, journal.ErrLocked) {
		t.Errorf("a second instance is told %v", err)
	}
}
