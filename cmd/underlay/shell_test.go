//go:build unix

package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
	"golang.org/x/term"

	"underlay/drills/board"
)

// jobShell does what a shell does for one job: it runs the program named by
// $JOB in the foreground, takes the terminal back with its own modes when the
// job stops, and wakes the job after a line was entered.
func jobShell() int {
	signal.Ignore(syscall.SIGTTOU)
	own, err := term.GetState(0)
	if err != nil {
		return 1
	}
	job := exec.Command(os.Getenv("JOB"))
	job.Stdin, job.Stdout, job.Stderr = os.Stdin, os.Stdout, os.Stderr
	job.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Foreground: true, Ctty: 0}
	if err := job.Start(); err != nil {
		fmt.Println(err)
		return 1
	}
	pid := job.Process.Pid
	for in := bufio.NewReader(os.Stdin); ; {
		var status syscall.WaitStatus
		if _, err := syscall.Wait4(pid, &status, syscall.WUNTRACED, nil); err != nil {
			return 1
		}
		if !status.Stopped() {
			return status.ExitStatus()
		}
		unix.IoctlSetPointerInt(0, unix.TIOCSPGRP, unix.Getpgrp())
		term.Restore(0, own)
		fmt.Println("the job has stopped")
		in.ReadString('\n')
		unix.IoctlSetPointerInt(0, unix.TIOCSPGRP, pid)
		syscall.Kill(-pid, syscall.SIGCONT)
	}
}

// Stopped and woken by a shell, the sitting is paused and has the terminal
// again: keys are not echoed, and practice goes on.
func TestJobControl(t *testing.T) {
	home := t.TempDir()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(home, "underlay")
	if err := os.Symlink(self, program); err != nil {
		t.Fatal(err)
	}
	y := &typist{console: open(t, 80, 24, home, []string{"JOB=" + program}, "job-shell")}
	y.begin("8 minutes today")
	y.send("\r")
	y.see(" pause")
	y.stroke()
	y.send("\x1a")
	y.until("the job to stop", func() bool { return strings.Contains(string(y.raw), "the job has stopped") })
	y.restored()
	y.send("\n")
	y.see("Paused.")
	y.see("Enter go on")
	y.send("\r")
	y.see(" pause")
	y.ready()
	for range 5 {
		y.stroke()
	}
	y.leave()
	if err := y.end(); err != nil {
		t.Fatal(err)
	}
	y.restored()
	sameStrokes(t, journalOf(t, home), y.made)
	if y.made[0].asked == board.Symbol("") {
		t.Error("nothing was typed")
	}
}
