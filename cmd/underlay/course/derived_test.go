package course

import (
	"bytes"
	"testing"
)

// What was derived comes back as it was, and never half.
func TestDerivedIsWholeOrRefused(t *testing.T) {
	p := newPast()
	p.Days["2026-03-01"], p.Hash["split-38"] = 480000, "5e1f"
	whole := derived{past: p, skill: bytes.Repeat([]byte{7}, 300), watch: []byte("counted")}
	data, err := whole.encode()
	if err != nil {
		t.Fatal(err)
	}
	got, err := decodeDerived(data)
	if err != nil || got.past.Days["2026-03-01"] != 480000 || got.past.Hash["split-38"] != "5e1f" || !bytes.Equal(got.skill, whole.skill) || !bytes.Equal(got.watch, whole.watch) {
		t.Errorf("%+v, %v", got, err)
	}
	for n := range data {
		if _, err := decodeDerived(data[:n]); err == nil {
			t.Errorf("%d bytes of %d are taken for all", n, len(data))
		}
	}
}
