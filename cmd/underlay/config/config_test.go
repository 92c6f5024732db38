package config

import (
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// example is the configuration as the package comment shows it.
const example = `boards   = ["split-38", "ansi-61"]   # the first is being learned; one alone is fine
minutes  = 12
aim      = "coverage"
mix      = { go = 3, shell = 1.5 }
from     = ["~/src/project"]
wrong    = "wait"
colours  = "none"
keeps    = ["F11"]
`

func TestRead(t *testing.T) {
	got, found := Read("underlay.toml", []byte(example))
	if found != nil {
		t.Fatal(found)
	}
	want := Config{
		Boards: []string{"split-38", "ansi-61"}, Minutes: 12, Aim: Coverage,
		Mix: map[string]float64{"go": 3, "shell": 1.5}, From: []string{"~/src/project"},
		Wrong: Wait, Colours: None, Keeps: []string{"F11"},
	}
	if d := cmp.Diff(want, got, cmpopts.IgnoreUnexported(got)); d != "" {
		t.Error(d)
	}
}

func TestEmptyFileMeansTheDefaults(t *testing.T) {
	got, found := Read("underlay.toml", nil)
	if d := cmp.Diff(Default(), got, cmpopts.IgnoreUnexported(got)); d != "" || found != nil {
		t.Error(d, found)
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"not TOML", "minutes = \n", `1:11 expected value but found '\n' instead`},
		{"not TOML further on", "boards = [\"split-38\"\nminutes = 3\n", `2:1 expected a comma (',') or array terminator (']'), but got 'm'`},
		{"twice", "minutes = 3\nminutes = 4\n", `2:1 Key 'minutes' has already been defined.`},
		{"unknown", "# mine\nboard = [\"x\"]\n", `2:1 there is no setting "board" | did you mean "boards"?`},
		{"unknown table", "minutes = 3\n\n[mixx]\ngo = 1\n", `3:1 there is no setting "mixx" | did you mean "mix"?`},
		{"far off", "zzzzzzzz = 1\n", `1:1 there is no setting "zzzzzzzz" | the settings are boards, minutes, aim, mix, from, wrong, colours, keeps`},
		{"minutes as text", `minutes = "8"`, `1:11 minutes is "8"; expected a whole number of minutes from 1 to 120`},
		{"minutes 0", "minutes = 0", `1:11 minutes is 0; expected a whole number of minutes from 1 to 120`},
		{"minutes 2.5", "minutes = 2.5", `1:11 minutes is 2.5; expected a whole number of minutes from 1 to 120`},
		{"aim", `aim = "sped"`, `1:7 aim is "sped"; expected "speed" or "coverage" | did you mean "speed"?`},
		{"wrong", `wrong = true`, `1:9 wrong is true; expected "auto", "wait" or "as-at-work"`},
		{"board text", `boards = "split-38"`, `1:10 boards is "split-38"; expected a list of texts | write ["split-38"]`},
		{"board number", "boards = [\n  \"a\", # first\n  3,\n]", `3:3 boards is 3; expected a text that is not empty`},
		{"three boards", `boards = ["a", "b", "c"]`, `1:10 boards is a list of 3; expected one board, or two: the one being learned and the other`},
		{"same board", `boards = ["a", "a"]`, `1:16 boards is "a"; expected another board than the first | one board alone is fine`},
		{"weight", "mix = { go = 3, shell = -1 }", `1:25 mix.shell is -1; expected a weight above 0 | leave out what is not to count`},
		{"weight in a table", "[mix]\ngo = 3\nshell = \"much\"", `3:9 mix.shell is "much"; expected a weight above 0 | leave out what is not to count`},
		{"empty mix", "mix = {}", `1:7 mix is a table; expected tables with their weights | such as mix = { go = 3, shell = 1 }`},
		{"two faults", "aim = 3\nkeeps = [1]", "1:7 aim is 3; expected \"speed\" or \"coverage\"\n2:10 keeps is 1; expected a text that is not empty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, found := Read("f", []byte(c.src))
			var got []string
			for _, f := range found {
				line := strings.TrimPrefix(strings.Replace(f.String(), ": fault: ", " ", 1), "f:")
				if f.Hint != "" && !strings.HasPrefix(f.Hint, "a line is a key") {
					line += " | " + f.Hint
				}
				got = append(got, line)
			}
			if d := cmp.Diff(c.want, strings.Join(got, "\n")); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestSetKeepsAllElse(t *testing.T) {
	for _, c := range []struct {
		name, src, key string
		value          any
		want           string
	}{
		{"a value", "# mine\nminutes = 8 # short\naim = 'speed'\n", "minutes", 12, "# mine\nminutes = 12 # short\naim = 'speed'\n"},
		{"a new one", "minutes = 8\n\n[mix]\ngo = 1\n", "aim", Coverage, "minutes = 8\naim = \"coverage\"\n\n[mix]\ngo = 1\n"},
		{"before a table alone", "# mine\n\n[mix]\ngo = 1\n", "aim", Coverage, "# mine\n\naim = \"coverage\"\n\n[mix]\ngo = 1\n"},
		{"after the last one", "minutes = 8\n\n# the end\n", "aim", Coverage, "minutes = 8\naim = \"coverage\"\n\n# the end\n"},
		{"in an empty file", "", "boards", []string{"a"}, "boards = [\"a\"]\n"},
		{"without a last line end", "minutes = 8", "wrong", Wait, "minutes = 8\nwrong = \"wait\"\n"},
		{"a list with comments", "keeps = [\n  \"F11\", # full screen\n]\n", "keeps", []string{"F11", "F1"}, "# full screen\nkeeps = [\"F11\", \"F1\"]\n"},
		{"an inline mix", "mix = { go = 3 } # work\n", "mix", map[string]float64{"go": 1, "my own": .5}, "mix = { go = 1, \"my own\" = 0.5 } # work\n"},
		{"a table", "[mix] # work\ngo = 3 # most\nshell = 1\n# end\n", "mix", map[string]float64{"go": 2, "c": 1}, "[mix] # work\ngo = 2 # most\n# shell = 1\nc = 1\n# end\n"},
		{"a dotted table", "mix.go = 3\nminutes = 5\n", "mix", map[string]float64{"c": 1, "go": 3}, "mix.go = 3\nmix.c = 1\nminutes = 5\n"},
		{"an empty table", "[mix]\n", "mix", map[string]float64{"c": 1}, "[mix]\nc = 1\n"},
		{"quotes", "", "from", []string{`a "b" \c`}, `from = ["a \"b\" \\c"]` + "\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, Set(c.src, c.key, c.value)); d != "" {
				t.Error(d)
			}
		})
	}
}

// What was set is read back, and nothing else changes, in whatever way the
// file is written. The decoder is the oracle.
func TestSetIsReadBack(t *testing.T) {
	sources := []string{"", example, "[mix]\ngo = 1 # x\n'odd name' = 2\n", "mix.go = 1\nboards = [ # two\n 'a#', \"b]\" ]\n",
		"from = ['''a''', \"\"\"b\\\"\"\"\"]\n\n# end", "\"minutes\" = 3\r\naim = 'speed'\r\n"}
	rapid.Check(t, func(t *rapid.T) {
		src := rapid.SampledFrom(sources).Draw(t, "source")
		key, value := setting(t)
		out := Set(src, key, value)
		before, after := decoded(t, src), decoded(t, out)
		before[key] = decoded(t, "x = "+render(value))["x"]
		if d := cmp.Diff(before, after); d != "" {
			t.Fatalf("%s\n%s", out, d)
		}
		for line := range strings.Lines(src) {
			if _, comment, ok := strings.Cut(line, "#"); ok && !strings.Contains(line, "'a#'") && !strings.Contains(out, strings.TrimSpace(comment)) {
				t.Fatalf("lost the comment %q in\n%s", comment, out)
			}
		}
	})
}

func setting(t *rapid.T) (string, any) {
	texts := rapid.SliceOfN(rapid.String(), 0, 3)
	switch key := rapid.SampledFrom(keys()).Draw(t, "key"); key {
	case "minutes":
		return key, rapid.IntRange(1, 120).Draw(t, "value")
	case "mix":
		return key, rapid.MapOfN(rapid.StringN(1, 5, -1), rapid.Float64Range(.1, 9), 1, 4).Draw(t, "value")
	case "boards", "from", "keeps":
		return key, texts.Draw(t, "value")
	default:
		return key, rapid.SampledFrom(Choices(key)).Draw(t, "value")
	}
}

func decoded(t *rapid.T, src string) map[string]any {
	m := map[string]any{}
	if _, err := toml.Decode(src, &m); err != nil {
		t.Fatalf("not TOML: %v\n%s", err, src)
	}
	return m
}

func FuzzRead(f *testing.F) {
	for _, src := range []string{example, "[mix]\ngo=1", "a.b = [[1,{x=1}],2]", "x = \"\"\"\n\"\"\"\"\"", "boards = [[\"a\"]]"} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		_, found := Read("f", []byte(src))
		for _, x := range found {
			if x.Message == "" || x.Line < 1 {
				t.Errorf("a finding without a place: %+v", x)
			}
		}
	})
}
