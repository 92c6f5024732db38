package drills

import (
	"errors"
	"os/exec"
	"strings"
	"testing"
)

// A shell reads nearly all that is made for its language: bash, which has what
// the counted scripts use beyond POSIX, tries the grammar of each drill. The
// head of a test case, which is its runner's, is that of a function to it.
func TestShellReadsItsLines(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("bash is not in PATH: the grammar of shell lines is not tried")
	}
	g := generator(t, "ansi-61", "shell")
	n, read := few(200), 0
	for seed := range uint64(n) {
		script := lineText(t, g, seed)
		if rest, ok := strings.CutPrefix(script, "@test "); ok {
			script = "f() " + rest[strings.Index(rest, "{"):]
		}
		cmd := exec.Command(bash, "-n")
		cmd.Stdin = strings.NewReader(script)
		if out, err := cmd.CombinedOutput(); err == nil {
			read++
		} else {
			t.Logf("%q: %s", script, out)
		}
	}
	t.Logf("%d of %d", read, n)
	if float64(read) < .95*float64(n) {
		t.Errorf("the shell reads %d of %d drills", read, n)
	}
}
