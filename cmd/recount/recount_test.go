package main

import (
	"slices"
	"strings"
	"testing"

	"underlay/corpus"
)

// Each embedded table of a language comes from the packages of its recipe.
func TestRecipesAreThoseOfTheTables(t *testing.T) {
	var languages []string
	for _, r := range recipes() {
		languages = append(languages, r.language)
		table, err := corpus.Load(r.language)
		if err != nil {
			t.Error(err)
			continue
		}
		var titles []string
		for _, p := range r.packages {
			title, _, _ := strings.Cut(p.title(), "@")
			titles = append(titles, title)
		}
		for _, s := range table.Sources {
			name, _, _ := strings.Cut(s.Name, "@")
			if !slices.Contains(titles, name) {
				t.Errorf("%s: %q is counted in the table and not in the recipe", r.language, s.Name)
			}
		}
	}
	languages = append(languages, "keys")
	slices.Sort(languages)
	if embedded := corpus.Embedded(); !slices.Equal(languages, embedded) {
		t.Errorf("recipes for %v, tables for %v", languages, embedded)
	}
}

func TestVersions(t *testing.T) {
	for _, c := range []struct {
		p             pack
		archive, want string
	}{
		{from(npm, "", "zod@4"), "/x/zod-4.6.7.tgz", "4.6.7"},
		{from(debian, "", "rake"), "/x/rake_13.0.6-3_all.deb", "13.0.6-3"},
		{from(debian, "", "a"), "/x/a_1%3a2.0-3_all.deb", "1:2.0-3"},
		{from(debianSource, "", "zlib"), "/x/zlib_1.2.13.dfsg.orig.tar.bz2", "1.2.13.dfsg"},
	} {
		if got := versionOf(c.p, c.archive); got != c.want {
			t.Errorf("%s: version %q, want %q", c.archive, got, c.want)
		}
	}
}

// What scripts, settings and documents call a thing stands in a table only
// where it is a general word.
func TestNamesAreGeneral(t *testing.T) {
	for _, r := range recipes() {
		if !r.general {
			continue
		}
		keep, err := generalNames(r.besides)
		if err != nil {
			t.Fatal(err)
		}
		table, err := corpus.Load(r.language)
		if err != nil {
			t.Fatal(err)
		}
		for name := range table.Counts(corpus.Name) {
			if !keep(name) {
				t.Errorf("%s: %q is not general", r.language, name)
			}
		}
		for _, name := range []string{"acme", "example2", "Corp"} { // invented
			if keep(name) {
				t.Errorf("%s: %q would be kept", r.language, name)
			}
		}
	}
}
