package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// transcript is a command of a document and what it is shown to print.
type transcript struct {
	line    int
	command string
	output  []string
}

// transcripts finds the indented lines that begin with "$ underlay", and the
// indented lines below each.
func transcripts(text string) []transcript {
	var out []transcript
	open := false
	for i, line := range strings.Split(text, "\n") {
		code, indented := strings.CutPrefix(line, "    ")
		command, isCommand := strings.CutPrefix(code, "$ ")
		switch {
		case indented && isCommand:
			open = strings.Contains(command, "underlay ")
			if open {
				out = append(out, transcript{line: i + 1, command: command})
			}
		case indented && open:
			t := &out[len(out)-1]
			t.output = append(t.output, code)
		case strings.TrimSpace(line) != "":
			open = false
		case open:
			t := &out[len(out)-1]
			t.output = append(t.output, "")
		}
	}
	return out
}

// matches tells whether the output is as shown; "…" stands for any text, and
// alone on a line for any lines.
func (tr transcript) matches(got string) bool {
	shown := strings.TrimSpace(strings.Join(tr.output, "\n"))
	if shown == "" {
		return true
	}
	pattern := regexp.QuoteMeta(shown)
	pattern = strings.ReplaceAll(pattern, "\n…\n", `\n(?s:.*)\n?`)
	pattern = regexp.MustCompile(`\n…$`).ReplaceAllString(pattern, `\n(?s:.*)`)
	pattern = strings.ReplaceAll(pattern, "…", `.*`)
	lines := strings.Split(strings.TrimSpace(got), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return regexp.MustCompile(`^` + pattern + `$`).MatchString(strings.Join(lines, "\n"))
}

// play runs the transcripts of a document one after the other, in an empty
// home directory.
func play(t *testing.T, name, text string) (failed int) {
	t.Helper()
	b := newBench(t)
	t.Chdir(t.TempDir())
	data := b.Dirs.Data
	for _, tr := range transcripts(text) {
		b.Dirs.Data = data
		words := strings.Fields(strings.ReplaceAll(tr.command, "'", ""))
		for ; len(words) > 0 && words[0] != "underlay"; words = words[1:] {
			if dir, ok := strings.CutPrefix(words[0], "XDG_DATA_HOME="); ok {
				b.Dirs.Data = dir + "/underlay"
			}
		}
		if len(words) == 0 {
			continue
		}
		b.out.Reset()
		b.err.Reset()
		run(words[1:], &b.Env)
		if got := b.out.String() + b.err.String(); !tr.matches(got) {
			failed++
			t.Logf("%s:%d: $ %s\nis shown to print\n%s\nand prints\n%s", name, tr.line, tr.command, strings.Join(tr.output, "\n"), got)
		}
	}
	return failed
}

// What the documents show is what the program prints.
func TestDocumentsShowWhatIsPrinted(t *testing.T) {
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile("../../" + name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(name, func(t *testing.T) {
			if play(t, name, string(text)) > 0 {
				t.Fail()
			}
		})
	}
}

// The check itself finds what is right, and what is not.
func TestTranscriptsAreChecked(t *testing.T) {
	good := "Text.\n\n    $ underlay plan --minutes 3\n    split-38\n\n      3 minutes today\n    …\n    $ underlay nosuch\n    underlay: there is no command \"nosuch\"\n    hint: … lists the commands\n\nMore.\n"
	if n := len(transcripts(good)); n != 2 {
		t.Fatalf("%d transcripts", n)
	}
	if play(t, "good", good) != 0 {
		t.Error("what is right is refused")
	}
	if play(t, "bad", strings.Replace(good, "3 minutes today", "4 minutes today", 1)) != 1 {
		t.Error("what is wrong is passed over")
	}
}
