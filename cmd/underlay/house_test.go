package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"path"
	"slices"
	"strings"
	"testing"
)

// listed is what `go list` says of one package of ours.
type listed struct {
	ImportPath string
	Imports    []string
	Deps       []string
}

// goList asks the go command for all packages of this module, by path below the module.
func goList(t *testing.T) map[string]listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps=false", "-json=ImportPath,Imports,Deps", "underlay/...")
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("the go command is not in PATH: the arrows between packages are not checked")
	}
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, stderr.String())
	}
	all := map[string]listed{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); err == io.EOF {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all[strings.TrimPrefix(p.ImportPath, "underlay/")] = p
	}
}

// ours returns the packages of this module among paths, below the module.
func ours(paths []string) []string {
	var out []string
	for _, p := range paths {
		if rest, ok := strings.CutPrefix(p, "underlay/"); ok {
			out = append(out, rest)
		}
	}
	return out
}

// mayImport says which packages of ours each domain package may import. All
// others, the rooms of the commands, may import any of these.
func mayImport() map[string][]string {
	return map[string][]string{
		"assets":              {},
		"corpus":              {"assets", "corpus/code", "corpus/ignore"},
		"corpus/code":         {},
		"corpus/ignore":       {},
		"drills/board":        {"assets"},
		"drills":              {"assets", "corpus", "corpus/code", "drills/board"},
		"scheduler":           {},
		"scheduler/journal":   {},
		"scheduler/learners":  {"scheduler"},
		"cmd/proving":         {"scheduler"},
		"cmd/underlay/screen": {"cmd/underlay/session", "cmd/underlay/capture", "drills", "drills/board", "scheduler"},
	}
}

// Dependencies run one way: see DEVELOPERS.md.
func TestArrows(t *testing.T) {
	all := goList(t)
	for name, allowed := range mayImport() {
		p, ok := all[name]
		if !ok {
			t.Errorf("package %s is not there", name)
			continue
		}
		for _, dep := range ours(p.Imports) {
			if !slices.Contains(allowed, dep) {
				t.Errorf("package %s imports %s; it may import %v", name, dep, allowed)
			}
		}
	}
	for name, p := range all {
		for _, dep := range ours(p.Imports) {
			if strings.HasPrefix(dep, "cmd/") && !strings.HasPrefix(name, "cmd/") {
				t.Errorf("package %s imports %s: nothing outside cmd imports a command", name, dep)
			}
		}
	}
}

// The domain packages reach neither the terminal nor processes nor the
// network; the file system is for the journal's disk half alone.
func TestDomainIsPure(t *testing.T) {
	all := goList(t)
	kept := []string{"os", "os/exec", "net", "syscall", "github.com/gdamore/tcell/v2", "golang.org/x/term"}
	for name, p := range all {
		if top, _, _ := strings.Cut(name, "/"); top == "cmd" && !pureRoom(name) || name == "scheduler/journal" {
			continue
		}
		for _, dep := range p.Imports {
			if slices.Contains(kept, dep) {
				t.Errorf("package %s imports %s", name, dep)
			}
		}
	}
}

// pureRoom reports whether a room of the command is held to the same rule.
func pureRoom(name string) bool {
	return slices.Contains([]string{"session", "standing", "capture"}, path.Base(name))
}

// Only the screen knows the terminal library.
func TestTerminalIsTheScreensAlone(t *testing.T) {
	for name, p := range goList(t) {
		if slices.Contains(p.Imports, "github.com/gdamore/tcell/v2") && !strings.HasPrefix(name, "cmd/underlay/screen") {
			t.Errorf("package %s imports tcell", name)
		}
	}
}
