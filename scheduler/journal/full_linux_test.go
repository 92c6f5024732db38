package journal_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"underlay/scheduler/journal"
)

// fullVar is set in a process of its own mounts, where a small file system
// in memory can be had without rights.
const fullVar = "UNDERLAY_TEST_FILL"

// A real file system that gets full: what was said to be saved is there, also
// after there is space again, and the record that did not fit can be written then.
func TestFullFileSystem(t *testing.T) {
	if dir := os.Getenv(fullVar); dir != "" {
		fillUp(t, dir)
		return
	}
	self, err := os.Executable()
	must(t, err)
	child := exec.Command(self, "-test.run=^TestFullFileSystem$", "-test.v")
	child.Env = append(os.Environ(), fullVar+"="+t.TempDir())
	child.SysProcAttr = &syscall.SysProcAttr{
		Cloneflags:  syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
		UidMappings: []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}},
	}
	if os.Getuid() == 0 { // no need to be root in a name space of one's own
		child.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWNS}
	}
	out, err := child.CombinedOutput()
	if errors.Is(err, syscall.EPERM) || errors.Is(err, syscall.ENOSPC) || child.ProcessState.ExitCode() == cannotMount {
		t.Skipf("a small file system cannot be mounted here: %v\n%s", err, out)
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

const cannotMount = 77

func fillUp(t *testing.T, dir string) {
	// What is mounted here is not to be seen by others.
	err := errors.Join(syscall.Mount("", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, ""), syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=128k"))
	if err != nil {
		fmt.Println(err)
		os.Exit(cannotMount)
	}
	defer syscall.Unmount(dir, 0)
	filler := filepath.Join(dir, "filler")
	must(t, os.WriteFile(filler, make([]byte, 60<<10), 0o600))
	j := open(t, journal.NewDisk(dir))
	saved := 0
	for err = j.Append(drill(0)); err == nil; err = j.Append(drill(saved)) {
		saved++
	}
	if !errors.Is(err, syscall.ENOSPC) || saved < 50 {
		t.Fatalf("after %d records: %v", saved, err)
	}
	for range 3 {
		if err := j.Append(drill(saved)); !errors.Is(err, syscall.ENOSPC) {
			t.Errorf("tried again: %v", err)
		}
	}
	count(t, dir, saved)
	must(t, os.Remove(filler))
	must(t, j.Append(drill(saved)))
	must(t, j.Append(drill(saved+1)))
	count(t, dir, saved+2)
	must(t, j.Close())
}

func count(t *testing.T, dir string, want int) {
	t.Helper()
	r, err := journal.Verify(os.DirFS(dir))
	must(t, err)
	if r.Drills != want || !r.Good() {
		t.Errorf("%d drills can be read, %d were saved: %+v", r.Drills, want, r)
	}
}
