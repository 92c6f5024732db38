package drills_test

import (
	"fmt"
	"time"

	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
)

func ExampleGenerator_Generate() {
	b, _ := board.Load("split-38")
	table, _ := corpus.Load("go")
	g := drills.NewGenerator(b, []corpus.Part{{Table: table, Weight: 1}}, drills.Options{})
	wanted := map[board.Symbol]float64{"(": 2, ")": 2, "{": 1, "}": 1}
	d, _ := g.Generate(drills.Position, wanted, 7)
	fmt.Println(len(d.Keys), "strokes, one of them", b.Words(d.Keys[0].Stroke))
	_, err := g.Generate(drills.Chord, wanted, 7)
	fmt.Println(err)
	// Output:
	// 20 strokes, one of them hold left thumb 3 · right middle finger, home row
	// chord: nothing to drill
}

func ExampleGrader() {
	b, _ := board.Load("split-38")
	g := drills.NewGenerator(b, nil, drills.Options{})
	d := g.Render(drills.Token, []board.Symbol{"x", "("})

	now := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	grader := drills.NewGrader(d, drills.GraderOptions{Board: b, Shown: now})
	for _, key := range []struct {
		got board.Symbol
		ms  int
	}{{"x", 400}, {"k", 300}, {"(", 500}} {
		now = now.Add(time.Duration(key.ms) * time.Millisecond)
		if out := grader.Key(key.got, now); out.Wrong {
			fmt.Println(out.Slip.Words())
		}
	}
	for _, t := range grader.Tries() {
		fmt.Printf("%s %.0f ms, wrong %v\n", t.Ask.Symbol, t.MS, t.Wrong)
	}
	fmt.Printf("%.2f keystrokes per character\n", grader.Figures().KSPC())
	// Output:
	// layer slip: that was the same place on the base layer, so the hold came late
	// x 400 ms, wrong false
	// ( 300 ms, wrong true
	// 1.50 keystrokes per character
}

func ExampleClassify() {
	// One substitution was mended on the way.
	f := drills.Classify([]rune("the quick brown"), []rune("the quick brown"), 16, 1)
	fmt.Printf("C %d, INF %d, IF %d, F %d, KSPC %.3f\n", f.C, f.INF, f.IF, f.F, f.KSPC())
	// Output: C 15, INF 0, IF 1, F 1, KSPC 1.133
}
