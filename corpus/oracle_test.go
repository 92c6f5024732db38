package corpus

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"go/scanner"
	gotoken "go/token"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// goMarks counts the ASCII marks in the code of Go source as go/scanner sees
// it: of strings and characters the quotes alone, no comments.
func goMarks(t *testing.T, src []byte, counts *[256]float64) {
	t.Helper()
	var s scanner.Scanner
	files := gotoken.NewFileSet()
	s.Init(files.AddFile("x.go", -1, len(src)), src, func(gotoken.Position, string) {}, 0)
	for {
		_, tok, text := s.Scan()
		switch {
		case tok == gotoken.EOF:
			return
		case tok == gotoken.SEMICOLON && text == "\n": // put in by the scanner
			continue
		case tok == gotoken.STRING || tok == gotoken.CHAR:
			text = text[:1] + text[len(text)-1:]
		case text == "":
			text = tok.String()
		}
		for i := range len(text) {
			counts[text[i]]++
		}
	}
}

// The code view of every file of the Go distribution has the marks that
// go/scanner finds, and the embedded table their shares.
func TestGoAgainstGoScanner(t *testing.T) {
	dir := goSource(t)
	if testing.Short() {
		dir = filepath.Join(dir, "net")
	}
	var theirs [256]float64
	scan := NewScan(ScanOptions{Languages: []string{"go"}, Leave: leaveTests})
	tree := os.DirFS(dir)
	if err := scan.Add(context.Background(), tree, "."); err != nil {
		t.Fatal(err)
	}
	for _, name := range counted(t, scan, tree) {
		src, err := fs.ReadFile(tree, name)
		if err != nil {
			t.Fatal(err)
		}
		goMarks(t, src, &theirs)
	}
	ours := scan.Table("go").Counts(Symbol)
	embedded, err := Load("go")
	if err != nil {
		t.Fatal(err)
	}
	var sumOurs, sumTheirs float64
	for _, m := range asciiMarks {
		sumTheirs += theirs[m]
		sumOurs += embedded.Counts(Symbol)[string(m)]
	}
	for _, m := range asciiMarks {
		if ours[string(m)] != theirs[m] {
			t.Errorf("%c %v times in the code view, %v times by go/scanner", m, ours[string(m)], theirs[m])
		}
		share, want := embedded.Counts(Symbol)[string(m)]/sumOurs, theirs[m]/sumTheirs
		if !testing.Short() && math.Abs(share-want) > max(.01*want, 5/sumTheirs) {
			t.Errorf("%c is %.5f of the marks in the embedded table, %.5f by go/scanner", m, share, want)
		}
	}
}

// leaveTests is what the embedded table leaves out of the Go distribution.
func leaveTests(name string, isDir bool) bool {
	return isDir && slices.Contains([]string{"test", "tests", "testdata", "spec", "dist", "deps", "debian", "fixtures", "encodings"}, path.Base(name))
}

// counted lists the Go files that a scan counts.
func counted(t *testing.T, s *Scan, tree fs.FS) (names []string) {
	lang := s.languages.Named("go")
	err := fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		if d.IsDir() && (vendored(d.Name()) || leaveTests(name, true)) {
			return fs.SkipDir
		}
		if err != nil || !d.Type().IsRegular() || path.Ext(name) != ".go" {
			return err
		}
		src, err := fs.ReadFile(tree, name)
		if err == nil && len(src) <= hugeBytes && judge(lang, src, bytes.Count(src, []byte{'\n'})) == "" {
			names = append(names, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// Raw counts are those of tr, fold, sort and uniq (POSIX).
func TestRawAgainstTr(t *testing.T) {
	shell, err := exec.LookPath("sh")
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("sh is not in PATH: raw counts are not compared with those of tr")
	}
	dir := filepath.Join(goSource(t), "net", "http")
	cmd := exec.Command(shell, "-c", `cat *.go | tr -cd '[:punct:][:alnum:] \t\n' | tr '\t\n ' '\001\002\003' | fold -b -w1 | sort | uniq -c`)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "LC_ALL=C")
	out, err := cmd.Output()
	if err != nil {
		t.Skipf("the tools are not all there: %v", err)
	}
	scan := NewScan(ScanOptions{Raw: true, Leave: func(_ string, isDir bool) bool { return isDir }, everything: true})
	if err := scan.Add(context.Background(), os.DirFS(dir), "."); err != nil {
		t.Fatal(err)
	}
	ours := scan.Table("raw").Counts(Symbol)
	lines := bytes.Split(bytes.TrimSuffix(out, []byte("\n")), []byte("\n"))
	if len(lines) < 90 {
		t.Errorf("tr and uniq tell of %d characters only", len(lines))
	}
	for _, line := range lines {
		var n float64
		if _, err := fmt.Sscanf(string(line[:len(line)-2]), "%f", &n); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		c := rune(line[len(line)-1])
		if at := strings.IndexRune("\x01\x02\x03", c); at >= 0 {
			c = []rune("\t\n ")[at]
		}
		if ours[symbolText(c)] != n {
			t.Errorf("%q %v times, by tr %v times", c, ours[symbolText(c)], n)
		}
	}
}

// The published order of the marks in Go 1.26.8's and Python 3.11's standard
// libraries and in the sources of lua 5.4, as counted by others for this
// project, comments and strings included, and that of the characters in the C
// of Linux (Pape, wiki.squeak.org/squeak/6361, 2016). Raw counts of the same
// libraries have that order; the tables, which leave comments and strings out,
// are like it.
func TestRanksOfMarks(t *testing.T) {
	for _, c := range []struct {
		table, order string
		prose        string // marks of the order that stand mostly in comments, literals and banners
		library      string // where it may be installed
		least        float64
	}{
		{"go", ",.()/=\":{}\\_[]-*!&%+<;|'>`", "/\\%-'`", goSource(t), .9},
		{"python", "'_.,)(\":=-#\\>][*/+%", "#\\%-/", "/usr/lib/python3.11", .8},
		{"c", "*=)(,_;/-'>.\"}{#", "*/-'.", kept("lua5.4_*"), .7}, // one program's source, with its own style of names
		{"c", "et_risancodlupfm,);(0hvgb-E=x>", "", "", .8},
	} {
		table, err := Load(c.table)
		if err != nil {
			t.Fatal(err)
		}
		ofCode := strings.Map(func(r rune) rune {
			if strings.ContainsRune(c.prose, r) {
				return -1
			}
			return r
		}, c.order)
		if r := likeness(ofCode, table.Counts(Symbol)); r < c.least {
			t.Errorf("%s: the table's order of marks has a rank correlation of %.2f with the published one, want %.2f", c.table, r, c.least)
		} else {
			t.Logf("%s: %.2f", c.table, r)
		}
		if _, err := os.Stat(c.library); c.library == "" || err != nil || testing.Short() {
			continue
		}
		scan := NewScan(ScanOptions{Raw: true, Languages: []string{c.table}, Leave: leaveTests, everything: true})
		if err := scan.Add(context.Background(), os.DirFS(c.library), "."); err != nil {
			t.Fatal(err)
		}
		if r := likeness(c.order, scan.Table("raw").Counts(Symbol)); r < .97 {
			t.Errorf("%s: the order of marks in %s has a rank correlation of %.2f with the published one, want .97", c.table, c.library, r)
		}
	}
}

// kept is the directory of a package that was counted, if UNDERLAY_SOURCES says
// where those are kept.
func kept(pattern string) string {
	found, _ := filepath.Glob(filepath.Join(os.Getenv("UNDERLAY_SOURCES"), pattern))
	if os.Getenv("UNDERLAY_SOURCES") == "" || len(found) == 0 {
		return ""
	}
	return found[0]
}

// likeness is Spearman's rank correlation of an order with that of counts.
func likeness(order string, counts Counts) float64 {
	marks := strings.Split(order, "")
	slices.SortFunc(marks, func(a, b string) int { return compareCounts(counts, a, b) })
	var published, ours []float64
	for rank, m := range marks {
		ours = append(ours, float64(rank))
		published = append(published, float64(strings.Index(order, m)))
	}
	return stat.Correlation(published, ours, nil)
}

func compareCounts(counts Counts, a, b string) int { return int(counts[b] - counts[a]) }
