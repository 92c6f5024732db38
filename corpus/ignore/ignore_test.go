package ignore

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tree is a tree of .gitignore files (with their text) and other files.
func tree() map[string]string {
	files := map[string]string{
		".gitignore": strings.Join([]string{
			"# comment", "", "*.o", "/build", "out/", "doc/*.txt", "!keep.o", "a/**/z", "**/deep", "logs/**",
			`\#hash`, `\!bang`, "sp\\ ", "trail   ", "[abc].x", "[!abc].y", "q?.z", "x**y", "lib/", "!lib/in", "/*.top", "b/*/c",
			"*.[oa]x", "foo/*", "!foo/bar", "nested/**/", "h/**/i/**/j", "bad[", "CRLF.txt\r", "**/two/three", "only/",
		}, "\n"),
		"sub/.gitignore":        "!*.o\n*.keep\n/rooted\nmore/*.m\n",
		"white/.gitignore":      "*\n!*.*\n!*/\n!plain\n",
		"sub/deeper/.gitignore": "*.o\n!special.o\n!*.keep",
	}
	for name := range strings.FieldsSeq(`x.o keep.o build/a.c sub/build/a.c out/f.c sub/out/g.c out.c doc/a.txt doc/in/a.txt a/z/f.c a/b/z/f.c a/b/c/z/f.c
		deep/f.c m/n/deep/f.c logs/f.c logs/in/f.c #hash.c !bang.c a.x d.x a.y d.y qq.z q.z xay.c x/y.c lib/in/f.c t.top sub/t.top b/x/c/f.c b/x/y/c/f.c
		r.ox r.ax r.bx foo/bar/f.c foo/baz/f.c nested/f.c nested/in/f.c sub/x.o sub/y.keep sub/rooted/f.c sub/in/rooted/f.c sub/more/f.m sub/more/in/f.m
		sub/deeper/x.o sub/deeper/special.o sub/deeper/z.keep CRLF.txt two/three/f.c in/two/three/f.c h/i/j/f.c h/x/i/j h/i/x/i/y/j h/j h/i/z only sub/only/f.c white/plain white/other white/a.c white/in/other white/in/a.c white/in/plain white/a.o`) {
		files[name] = "x"
	}
	files["sp /f.c"], files["trail/f.c"] = "x", "x"
	return files
}

// git check-ignore is the judge.
func TestLikeGit(t *testing.T) {
	git, err := exec.LookPath("git")
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("git is not in PATH: the rules are not compared with git check-ignore")
	}
	dir := t.TempDir()
	run := func(stdin string, args ...string) string {
		cmd := exec.Command(git, append([]string{"-C", dir, "-c", "core.excludesFile=", "-c", "core.ignoreCase=false"}, args...)...)
		cmd.Stdin = strings.NewReader(stdin)
		var out, stderr bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, &stderr
		if err := cmd.Run(); err != nil && cmd.ProcessState.ExitCode() != 1 { // 1: nothing is ignored
			t.Fatalf("git %v: %v\n%s", args, err, stderr.String())
		}
		return out.String()
	}
	run("", "init", "-q")
	for name, text := range tree() {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o700), os.WriteFile(file, []byte(text), 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	ours, all := walk(t, os.DirFS(dir))
	theirs := strings.Split(strings.TrimSuffix(run(strings.Join(all, "\x00")+"\x00", "check-ignore", "-z", "--stdin", "--no-index"), "\x00"), "\x00")
	slices.Sort(theirs)
	if !slices.Equal(ours, theirs) {
		t.Errorf("left out by us, not by git: %q\nleft out by git, not by us: %q", without(ours, theirs), without(theirs, ours))
	}
	if len(ours) < 30 || len(all)-len(ours) < 20 {
		t.Errorf("%d of %d files left out: the tree tests little", len(ours), len(all))
	}
}

// walk returns the files that our rules leave out, and all files.
func walk(t *testing.T, tree fs.FS) (out, all []string) {
	rules := map[string]*Rules{}
	gone := map[string]bool{}
	err := fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		if name == ".git" {
			return fs.SkipDir
		}
		dir := path.Dir(name)
		above := rules[dir]
		switch {
		case name != "." && (gone[dir] || above.Match(name, d.IsDir())):
			gone[name] = true
		case d.IsDir():
			text, _ := fs.ReadFile(tree, path.Join(name, ".gitignore"))
			rules[name] = In(above, name, text)
		}
		if !d.IsDir() {
			all = append(all, name)
			if gone[name] {
				out = append(out, name)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(out)
	return out, all
}

func without(a, b []string) []string {
	return slices.DeleteFunc(slices.Clone(a), func(s string) bool { return slices.Contains(b, s) })
}

func FuzzMatch(f *testing.F) {
	f.Add("*.o\n!x\n/a/**/b\n[", "a/c/b")
	f.Fuzz(func(t *testing.T, text, name string) {
		if fs.ValidPath(name) {
			In(nil, ".", []byte(text)).Match(name, false)
		}
	})
}
