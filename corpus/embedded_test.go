package corpus

import (
	"errors"
	"io/fs"
	"math"
	"strings"
	"testing"

	"underlay/assets"
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

// The languages that come with the program, all small, each with its sources.
func TestEmbeddedLanguages(t *testing.T) {
	size := 0
	for file := range strings.FieldsSeq(`go c cpp rust java javascript typescript python ruby lua haskell shell sql html css yaml toml markdown keys`) {
		text, err := fs.ReadFile(assets.FS(), "tables/"+file+".tsv")
		if err != nil {
			t.Error(err)
			continue
		}
		size += len(text)
	}
	if size > 500_000 {
		t.Errorf("the tables have %d bytes together, want 500,000 at most", size)
	}
	for _, name := range Embedded() {
		table, err := Load(name)
		if err != nil || name == "keys" {
			continue
		}
		var bytes float64
		for _, s := range table.Sources {
			bytes += s.Bytes
			if s.Name == "" || s.Version == "" || s.Licence == "" {
				t.Errorf("%s: source without name, version or licence: %+v", name, s)
			}
		}
		if bytes != table.Bytes {
			t.Errorf("%s: sources of %v bytes together, counted %v", name, bytes, table.Bytes)
		}
		if bytes < 10e6 && !strings.Contains(strings.Join(table.Notes, " "), "thin") {
			t.Errorf("%s: %v bytes, and no note says that this is thin", name, bytes)
		}
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
