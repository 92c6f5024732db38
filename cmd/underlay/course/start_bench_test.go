package course

import (
	"testing"

	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
)

// What a start without a journal costs, as a whole and by its parts.
func BenchmarkStart(b *testing.B) {
	for b.Loop() {
		embedded(b, nil)
	}
}

func BenchmarkStartParts(b *testing.B) {
	split, err := board.Load("split-38")
	if err != nil {
		b.Fatal(err)
	}
	code, err := corpus.Load("go")
	if err != nil {
		b.Fatal(err)
	}
	mix := []corpus.Part{{Table: code, Weight: 1}}
	b.Run("board", func(b *testing.B) {
		for b.Loop() {
			board.Load("split-38")
		}
	})
	b.Run("table", func(b *testing.B) {
		for b.Loop() {
			corpus.Load("go")
		}
	})
	b.Run("mix", func(b *testing.B) {
		for b.Loop() {
			corpus.Mix(mix...)
		}
	})
	b.Run("generator", func(b *testing.B) {
		for b.Loop() {
			drills.NewGenerator(split, mix, drills.Options{})
		}
	})
	g := drills.NewGenerator(split, mix, drills.Options{})
	b.Run("pool", func(b *testing.B) {
		for b.Loop() {
			g.Pool(linesInPool, 1)
		}
	})
}
