package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// quietEnv is an Env without a terminal, whose directories are below dir.
func quietEnv(dir, input string) (env *Env, stdout, stderr *bytes.Buffer) {
	stdout, stderr = &bytes.Buffer{}, &bytes.Buffer{}
	return &Env{
		Stdin: strings.NewReader(input), Stdout: stdout, Stderr: stderr,
		Getenv:   func(string) string { return "" },
		Now:      func() time.Time { return time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC) },
		Dirs:     Dirs{Config: filepath.Join(dir, "config"), Data: filepath.Join(dir, "data"), State: filepath.Join(dir, "state"), Cache: filepath.Join(dir, "cache")},
		Terminal: func(any) bool { return false },
		Columns:  func(any) int { return 0 },
	}, stdout, stderr
}

// hostile makes a tree with what a scan may meet: loops of links, a file of
// 4 GiB, a pipe, a link to a device, a name that is not UTF-8.
func hostile(t *testing.T) string {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("links, pipes and names of bytes are made as Unix has them")
	}
	dir := t.TempDir()
	must := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	at := func(name string) string { return filepath.Join(dir, name) }
	must(os.WriteFile(at("a.go"), []byte("package a\n"), 0o600))
	must(os.Mkdir(at("sub"), 0o700))
	must(os.Symlink("..", at("sub/up")))
	must(os.Symlink("loop.go", at("loop.go")))
	must(os.Symlink("/dev/zero", at("zero.go")))
	must(os.Symlink("nowhere", at("gone.go")))
	must(os.WriteFile(at("large.go"), []byte("package a\n"), 0o600))
	must(os.Truncate(at("large.go"), 4<<30))
	must(exec.Command("mkfifo", at("pipe.go")).Run())
	if runtime.GOOS == "linux" { // elsewhere the file system refuses it
		must(os.WriteFile(at("caf\xe9.go"), []byte("package a\n"), 0o600))
	}
	return dir
}

func TestScanOfHostileTree(t *testing.T) {
	dir := hostile(t)
	env, stdout, stderr := quietEnv(t.TempDir(), "")
	if status := run([]string{"corpus", "scan", "--json", dir}, env); status != 0 {
		t.Fatalf("exit status %d: %s", status, stderr)
	}
	var got scanned
	if err := json.Unmarshal(stdout.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Files != 1 || got.Skipped["link"] != 4 || got.Skipped["special"] != 1 || got.Skipped["huge"] != 1 {
		t.Errorf("%d files, skipped %v", got.Files, got.Skipped)
	}
	if !strings.Contains(stderr.String(), "pipe.go\": it is neither a directory nor a file") {
		t.Errorf("the pipe is not named: %s", stderr)
	}
	if runtime.GOOS == "linux" && !strings.Contains(stderr.String(), `"caf\xe9.go": its name is not UTF-8`) {
		t.Errorf("the odd name is not named, or not safe to print: %q", stderr)
	}
}

// What is no tree of files is refused at once.
func TestScanOfWhatIsNoTree(t *testing.T) {
	dir := hostile(t)
	for name, want := range map[string]string{
		"pipe.go": "it is neither a directory nor a file",
		"loop.go": "links",
		"zero.go": "it is neither a directory nor a file",
		"none":    "no such file or directory",
	} {
		env, _, stderr := quietEnv(t.TempDir(), "")
		if status := run([]string{"corpus", "scan", filepath.Join(dir, name)}, env); status != misused || !strings.Contains(stderr.String(), want) {
			t.Errorf("%s: exit status %d, want 2 with %q:\n%s", name, status, want, stderr)
		}
		for _, command := range []string{"corpus keys", "corpus keys --json"} {
			env, _, stderr := quietEnv(t.TempDir(), "")
			if status := run(append(strings.Fields(command), filepath.Join(dir, name)), env); status != misused {
				t.Errorf("%s %s: exit status %d, want 2:\n%s", command, name, status, stderr)
			}
		}
	}
}

// On a terminal the recording is deleted if the person says so, and only then.
func TestOfferToDelete(t *testing.T) {
	for answer, deleted := range map[string]bool{"y\n": true, "yes\n": true, "\n": false, "n\n": false, "": false} {
		file := filepath.Join(t.TempDir(), "typed")
		if err := os.WriteFile(file, []byte("ls\r\x1b[A\x1b"), 0o600); err != nil {
			t.Fatal(err)
		}
		env, _, stderr := quietEnv(t.TempDir(), answer)
		env.Terminal = func(stream any) bool { return stream != any(stderr) }
		if status := run([]string{"corpus", "keys", file}, env); status != 0 {
			t.Fatalf("exit status %d: %s", status, stderr)
		}
		if exists(file) == deleted {
			t.Errorf("after the answer %q the recording is there: %v", answer, !deleted)
		}
		if !strings.Contains(stderr.String(), "passwords too") {
			t.Errorf("no word of what a recording holds: %s", stderr)
		}
	}
}
