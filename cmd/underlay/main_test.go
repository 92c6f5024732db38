package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// -update rewrites the expected output in the scripts.
var update = flag.Bool("update", false, "rewrite expected output in testdata/script")

// TestMain lets the test binary stand for the command in the scripts.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"underlay":          func() { os.Exit(run(os.Args[1:], system())) },
		"underlay-breaking": func() { os.Exit(run(os.Args[1:], breaking())) },
		"underlay-stepped":  func() { os.Exit(run(os.Args[1:], stepped())) },
		"bare-echo":         func() { os.Exit(bareEcho()) },
		"bare-paint":        func() { os.Exit(barePaint()) },
		"job-shell":         func() { os.Exit(jobShell()) },
	})
}

// TestScripts runs the transcripts in testdata/script, each in an empty
// directory of its own, with a home directory in it.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/script",
		UpdateScripts:       *update,
		RequireUniqueNames:  true,
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"status": status, "append": appendLine},
		Setup: func(e *testscript.Env) error {
			e.Setenv("HOME", e.WorkDir+"/home")
			return os.Mkdir(e.WorkDir+"/home", 0o700)
		},
	})
}

// status runs "status N COMMAND ARG…" and fails unless the command exits with
// status N. Its output is there for stdout, stderr and cmp.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N COMMAND ARG…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		left, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = left.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// appendLine runs "append FILE TEXT": the text becomes the file's last line.
func appendLine(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: append FILE TEXT")
	}
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_APPEND|os.O_WRONLY, 0)
	ts.Check(err)
	_, err = f.WriteString(args[1] + "\n")
	ts.Check(err)
	ts.Check(f.Close())
}
