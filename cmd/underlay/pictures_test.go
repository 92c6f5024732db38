package main

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

// The README's pictures can be made, and are well-formed.
func TestPictures(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates weeks of practice")
	}
	dir := t.TempDir()
	env := system()
	env.Stdout, env.Stderr = io.Discard, io.Discard
	if status := run([]string{"pictures", dir}, env); status != 0 {
		t.Fatalf("exit status %d", status)
	}
	for _, name := range []string{"today", "drill", "rest", "map", "page"} {
		f, err := os.Open(filepath.Join(dir, name+".svg"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		for d := xml.NewDecoder(f); ; {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
	}
}
