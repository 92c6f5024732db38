package main

import (
	"slices"
	"strings"
	"testing"

	"underlay/cmd/underlay/session"
	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
)

// A line of input holds no Escape, so that a command which needs it is left out
// whole, with what is told of it; the others stay as they are.
func TestLinesHoldWholeCommands(t *testing.T) {
	g := motions(t)
	left := 0
	for seed := range uint64(400) {
		d, err := g.Generate(drills.Motion, nil, seed)
		if err != nil {
			t.Fatal(err)
		}
		p := &lineOnly{}
		task := session.Task{Drill: d}
		p.strip(&task)
		got, want := described(task.Drill), slices.DeleteFunc(described(d), func(c command) bool { return !c.inLine })
		if !slices.Equal(got, want) {
			t.Fatalf("%v: %v, want %v", d, got, want)
		}
		for i, f := range task.Drill.Also {
			if f.At+f.Len > len(task.Drill.Keys) {
				t.Fatalf("%v: equal form %d at %d, %d long", task.Drill, i, f.At, f.Len)
			}
		}
		if len(got) < len(described(d)) {
			left++
		}
	}
	if left < 20 {
		t.Errorf("%d drills had a command that no line holds", left)
	}
}

// motions makes drills of editor commands.
func motions(t *testing.T) *drills.Generator {
	t.Helper()
	b, err := board.Load("ansi-61")
	if err != nil {
		t.Fatal(err)
	}
	table, err := corpus.Load("go")
	if err != nil {
		t.Fatal(err)
	}
	return drills.NewGenerator(b, []corpus.Part{{Table: table, Weight: 1}}, drills.Options{})
}

type command struct {
	keys, does string
	inLine     bool
}

// described lists the commands of a drill.
func described(d drills.Drill) []command {
	var all []command
	starts := append(d.Groups(), len(d.Keys))
	for i, note := range d.Notes {
		c := command{does: note, inLine: true}
		for _, k := range d.Keys[starts[i]:starts[i+1]] {
			c.keys += string(k.Symbol) + " "
			c.inLine = c.inLine && inLine(k.Symbol)
		}
		all = append(all, c)
	}
	return all
}

// Line by line, too, an equal form of a command is right, alone or with others.
func TestEqualFormsAreTakenLineByLine(t *testing.T) {
	g, tried := motions(t), 0
	for seed := range uint64(400) {
		d, err := g.Generate(drills.Motion, nil, seed)
		if err != nil {
			t.Fatal(err)
		}
		task := session.Task{Drill: d}
		(&lineOnly{}).strip(&task)
		for form := task.Drill; len(form.Also) > 0; {
			form = form.With(0)
			var line strings.Builder
			for _, k := range form.Keys {
				r, _ := k.Symbol.Rune()
				line.WriteRune(r)
			}
			w, ok := equal(task.Drill, line.String())
			if !ok || !slices.Equal(w.asked, form.Symbols()) {
				t.Fatalf("%v: %q gives %v, %v", task.Drill, line.String(), w.asked, ok)
			}
			tried++
		}
		if _, ok := equal(task.Drill, "no such form"); ok {
			t.Fatalf("%v: any line is a form", task.Drill)
		}
	}
	if tried < 20 {
		t.Errorf("%d forms were tried", tried)
	}
}
