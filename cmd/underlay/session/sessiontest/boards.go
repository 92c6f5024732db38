package sessiontest

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"underlay/drills/board"
)

// Noon is when the sittings of tests begin.
func Noon() time.Time { return time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC) }

// Trial is the board trial-42 of testdata, which changes with no embedded one.
// The test has to run in a room of the command.
func Trial(t testing.TB) *board.Board {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", "boards", "trial-42.toml"))
	if err != nil {
		t.Fatal(err)
	}
	b, found := board.Read("trial-42.toml", src)
	if err := found.Err(); err != nil {
		t.Fatal(err)
	}
	return b
}

// Standard is the embedded board ansi-61.
func Standard(t testing.TB) *board.Board {
	t.Helper()
	b, err := board.Load("ansi-61")
	if err != nil {
		t.Fatal(err)
	}
	return b
}
