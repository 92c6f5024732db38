package board_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underlay/drills/board"
)

var update = flag.Bool("update", false, "write the findings of testdata/boards/broken as they are now")

// TestBrokenBoards reads the files of testdata/boards/broken; beside each stands what
// has to be found in it, with place and hint, and nothing else.
func TestBrokenBoards(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "boards", "broken", "*.toml"))
	if err != nil || len(files) < 40 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(file)
		b, found := board.Read(name, src)
		if (b == nil) != (found.Err() != nil) {
			t.Errorf("%s: board %v with %v", name, b != nil, found.Err())
		}
		got := listed(found)
		wantFile := strings.TrimSuffix(file, ".toml") + ".want"
		if *update {
			if err := os.WriteFile(wantFile, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(wantFile)
		if err != nil || got != string(want) {
			t.Errorf("%s: found\n%swant\n%s%v", name, got, want, err)
		}
		if len(found) == 0 {
			t.Errorf("%s: nothing found", name)
		}
	}
}

func listed(found board.Findings) string {
	var out strings.Builder
	for _, f := range found {
		out.WriteString(f.String() + "\n")
		if f.Hint != "" {
			out.WriteString("  " + board.Safe(f.Hint) + "\n")
		}
	}
	return out.String()
}
