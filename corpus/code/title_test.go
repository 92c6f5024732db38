package code

import (
	"strings"
	"testing"
)

// The spellings are those of the languages' own standards and references.
func TestTitle(t *testing.T) {
	for name, want := range map[string]string{
		"go": "Go", "c": "C", "cpp": "C++", "csharp": "C#", "javascript": "JavaScript", "sql": "SQL", "html": "HTML",
		"yaml": "YAML", "python": "Python", "shell": "shell", "my-work": "my-work", "": "",
	} {
		if got := Title(name); got != want {
			t.Errorf("%q is written %q, want %q", name, got, want)
		}
	}
	for _, l := range All().List() {
		if l.Name != "shell" && Title(l.Name) == strings.ToLower(Title(l.Name)) {
			t.Errorf("%s has no name that people write", l.Name)
		}
	}
}
