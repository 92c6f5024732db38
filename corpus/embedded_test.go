package corpus

import (
	"errors"
	"io/fs"
	"math"
	"testing"
)

func TestEmbeddedTablesAreSound(t *testing.T) {
	for _, name := range Embedded() {
		table, err := Load(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if table.Strokes() == 0 || table.Name != name {
			t.Errorf("%s: %v strokes, named %q", name, table.Strokes(), table.Name)
		}
	}
	if _, err := Load("../assets"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a name with a path gives %v, want fs.ErrNotExist", err)
	}
}

// The assumed share of strokes that no text shows is 11 %, and the table's
// counts are in a thousand of all strokes.
func TestKeysAreElevenPerCent(t *testing.T) {
	keys, err := Load("keys")
	if err != nil {
		t.Fatal(err)
	}
	if keys.Weight != .11 || math.Abs(keys.Strokes()-110) > 1e-9 {
		t.Errorf("weight %v with %v strokes, want 0.11 with 110", keys.Weight, keys.Strokes())
	}
}
