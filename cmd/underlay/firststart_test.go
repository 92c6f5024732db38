package main

import (
	"slices"
	"strings"
	"testing"

	"underlay/cmd/underlay/session"
)

// A first start offers every board with what it is, and the standard one on
// every OS layout; with a configuration, or a board named, it asks nothing.
func TestOffer(t *testing.T) {
	b := newBench(t)
	p, err := b.practise(wish{})
	if err != nil {
		t.Fatal(err)
	}
	o := p.offer()
	if c := o.Boards[slices.IndexFunc(o.Boards, func(c session.Choice) bool { return c.Name == "split-38" })]; c.Shape != "38 keys" || c.Title == "" {
		t.Errorf("%+v", c)
	}
	var others []string
	for _, c := range o.Others {
		others = append(others, c.Name)
	}
	for _, want := range []string{"iso-62", "iso-62-gb", "iso-62-de", "iso-62-fr", "iso-62-es", "iso-62-se", "split-34"} {
		if !slices.Contains(others, want) {
			t.Errorf("%s is not offered: %v", want, others)
		}
	}
	if i := slices.IndexFunc(o.Others, func(c session.Choice) bool { return c.Name == "split-34" }); o.Others[i].Set || !o.Others[0].Set {
		t.Error("whether a board says what the computer is set to is confused")
	}
	if others[0] != "ansi-61" || strings.HasPrefix(o.Boards[0].Name, "ansi") {
		t.Errorf("the first ones are %v and %v", o.Boards[0], others[0])
	}
	if named, err := b.practise(wish{board: "grid-48"}); err != nil || named.offer() != nil {
		t.Errorf("asks although a board is named: %v", err)
	}
	if _, p := configured(t, wish{}); p.offer() != nil {
		t.Error("asks although there is a configuration")
	}
}

// The OS layouts that are offered begin with what the locale lets guess.
func TestLikelyLayoutComesFirst(t *testing.T) {
	for locale, want := range map[string]string{"": "us", "C.UTF-8": "us", "en_US.UTF-8": "us", "de_DE.UTF-8": "de", "sv_SE": "se", "en_GB.UTF-8": "gb", "fr_CH.UTF-8": "us"} {
		e := &Env{Getenv: func(name string) string { return map[string]string{"LANG": locale}[name] }}
		all := e.layouts()
		if all[0].Name != want || len(all) != 6 {
			t.Errorf("%q: %v", locale, all)
		}
	}
}

// The choice is written, also where it is what holds without one, and both
// boards are on one OS layout, as a computer is.
func TestFirstChoiceIsWritten(t *testing.T) {
	for _, c := range []struct {
		chosen []string
		layout string // told besides
		want   []string
	}{
		{[]string{"split-38", "ansi-61"}, "", []string{"split-38", "ansi-61"}},
		{[]string{"split-42", "iso-62-de"}, "", []string{"split-42-de", "iso-62-de"}},
		{[]string{"iso-62", "iso-62-de"}, "", []string{"iso-62-de"}},
		{[]string{"grid-48"}, "us", []string{"grid-48"}},
		{[]string{"grid-48"}, "de", []string{"grid-48-de"}},
		{[]string{"grid-48", "split-34"}, "de", []string{"grid-48-de", "split-34-de"}},
	} {
		b := newBench(t)
		p, err := b.practise(wish{})
		if err != nil {
			t.Fatal(err)
		}
		s := p.settings()
		s.Boards = c.chosen
		got := p.Configure(session.Configure{Settings: s, First: true, Layout: c.layout})
		if got.Err != nil {
			t.Fatal(got.Err)
		}
		want := "boards = [\"" + strings.Join(c.want, "\", \"") + "\"]\n"
		if file(t, b) != want || !slices.Equal(got.Settings.Boards, c.want) {
			t.Errorf("%v: written %q, used %v", c.chosen, file(t, b), got.Settings.Boards)
		}
		for i, on := range got.Planner.Boards() {
			if on.Name != c.want[i] || strings.HasSuffix(on.Name, "-de") != (on.OSLayout == "de") {
				t.Errorf("%v: practised on %s with %s", c.chosen, on.Name, on.OSLayout)
			}
		}
		if again, err := b.practise(wish{}); err != nil || again.offer() != nil || again.course.Boards()[0].Name != c.want[0] {
			t.Errorf("%v: the next start: %v", c.chosen, err)
		}
	}
}
