package corpus

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// Sequences as xterm's control sequences have them (ctlseqs, patch 379) and
// control characters as ASCII does (man-pages ascii(7)).
func TestKeysOfXterm(t *testing.T) {
	for input, want := range map[string]Counts{
		"\x1b[A\x1b[B\x1b[C\x1b[D": {"ArrowUp": 1, "ArrowDown": 1, "ArrowRight": 1, "ArrowLeft": 1},
		"\x1bOA\x1bOB\x1bOC\x1bOD": {"ArrowUp": 1, "ArrowDown": 1, "ArrowRight": 1, "ArrowLeft": 1},
		"\x1b[H\x1b[F\x1bOH\x1bOF": {"Home": 2, "End": 2},
		"\x1bOP\x1bOQ\x1bOR\x1bOS": {"F1": 1, "F2": 1, "F3": 1, "F4": 1},
		"\x1b[15~\x1b[17~\x1b[18~\x1b[19~\x1b[20~\x1b[21~\x1b[23~\x1b[24~": {"F5": 1, "F6": 1, "F7": 1, "F8": 1, "F9": 1, "F10": 1, "F11": 1, "F12": 1},
		"\x1b[2~\x1b[3~\x1b[5~\x1b[6~":                                     {"Insert": 1, "Delete": 1, "PageUp": 1, "PageDown": 1},
		"\x1b[15;2~\x1b[1;2P\x1b[Z\x1b[1;5D":                               {"Shift+F5": 1, "Shift+F1": 1, "Shift+Tab": 1, "Control+ArrowLeft": 1},
		"\x1b[1;3A\x1b[1;4A\x1b[1;6A\x1b[1;7A\x1b[1;8A":                    {"Alt+ArrowUp": 1, "Alt+Shift+ArrowUp": 1, "Control+Shift+ArrowUp": 1, "Control+Alt+ArrowUp": 1, "Control+Alt+Shift+ArrowUp": 1},
		"\x1b[27;3;9~\x1b[27;5;119~\x1b[119;5u\x1b[97;2u":                  {"Alt+Tab": 1, "Control+w": 2},
		"\x00\x01\x17\x1a\x1c\x1d\x1e\x1f\x7f\x08\t":                       {"Control+Space": 1, "Control+a": 1, "Control+w": 1, "Control+z": 1, "Control+\\": 1, "Control+]": 1, "Control+^": 1, "Control+_": 1, "Backspace": 1, "Control+h": 1, "Tab": 1},
		"\x08":           {"Backspace": 1},
		"a\rb\n":         {"Control+j": 1},
		"a\nb\n":         {},
		"\x1b":           {"Escape": 1},
		"\x1bdd\x1b\x1b": {"Escape": 3},
		"\x1b[[":         {"Escape": 1}, // vi's section motion after Escape
		"\x1bOprint":     {"Escape": 1}, // open a line above, then text
		"\x1b]]":         {"Escape": 1},
		"\x1bP":          {"Escape": 1},
		"\x1b[I\x1b[O\x1b[?62;4c\x1b[24;80R\x1b[<0;1;2M\x1b[M !!\x1b]11;rgb:0/0/0\x07\x1bP1$r0m\x1b\\": {},
		"\x1b[200~secret\x1b[A\x1b[201~x": {},
	} {
		got, err := ReadRecording(strings.NewReader(input))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got.Keys); diff != "" {
			t.Errorf("%q (- want, + got):\n%s", input, diff)
		}
	}
}

func TestWhatIsNoKey(t *testing.T) {
	got, err := ReadRecording(strings.NewReader("é)\r\x1b[200~secret\x1b[201~\x1b[I\x1b[3;4R\x1b[97;2u\x1bOprint"))
	if err != nil {
		t.Fatal(err)
	}
	want := &Recording{Keys: Counts{"Escape": 1}, Text: 10, Pasted: 6, Replies: 2}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestTableOfRecording(t *testing.T) {
	r, err := ReadRecording(strings.NewReader("ab(\x1b\x1b"))
	if err != nil {
		t.Fatal(err)
	}
	table := r.Table("keys")
	if table.Weight != .4 || table.Strokes() != 2 || table.Symbols()["Escape"] != 2 {
		t.Errorf("weight %v, strokes %v, symbols %v", table.Weight, table.Strokes(), table.Symbols())
	}
	var out bytes.Buffer
	if err := table.Write(&out); err != nil || strings.Contains(out.String(), "(") {
		t.Errorf("error %v, or text in the table: %s", err, out.String())
	}
	if _, err := ReadTable("keys", &out); err != nil {
		t.Error(err)
	}
}

// script of util-linux makes the recording.
func TestRecordingOfScript(t *testing.T) {
	script, err := exec.LookPath("script")
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("script is not in PATH: its recordings are not read")
	}
	file := filepath.Join(t.TempDir(), "typed")
	cmd := exec.Command(script, "-q", "--log-in", file, "--log-out", os.DevNull, "-c", "head -c 12 >/dev/null")
	cmd.Stdin = strings.NewReader("ls -l\r\x1b[A\x7f\x04\n\n\n\n\n\n\n")
	cmd.WaitDelay = 10 * time.Second
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Skipf("this script does not record input: %v %s", err, out)
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	got, err := ReadRecording(f)
	if err != nil {
		t.Fatal(err)
	}
	want := Counts{"ArrowUp": 1, "Backspace": 1, "Control+d": 1}
	for key, n := range want {
		if got.Keys[key] != n {
			t.Errorf("%s %v times, want %v", key, got.Keys[key], n)
		}
	}
	if got.Text != 6 {
		t.Errorf("%d strokes of text, want 6: %v", got.Text, got.Keys)
	}
}

func FuzzReadRecording(f *testing.F) {
	f.Add([]byte("ls\r\x1b[1;5A\x1bOA\x1b]11;x\x07\x1b[200~x"))
	f.Fuzz(func(t *testing.T, src []byte) {
		r, err := ReadRecording(bytes.NewReader(src))
		if err != nil {
			t.Fatal(err)
		}
		if int(r.Strokes())+int(r.Pasted) > len(src) {
			t.Errorf("%v strokes and %d bytes pasted in %d bytes", r.Strokes(), r.Pasted, len(src))
		}
	})
}

// What a terminal was sent is no recording of keys: POSIX termios has ONLCR map a
// line feed to CR LF on output, and a mode is set by ECMA-48's SM, with ? the
// private ones. A program of the user's may still get CR LF once, from a paste.
func TestScreensAreNoKeys(t *testing.T) {
	for src, want := range map[string]error{
		"$ ls\r\nfile\r\n$ ": ErrScreen,
		"ls\rls\r\nfile\r\n": ErrScreen, // both ways in one file
		"\x1b[?2004h$ ":      ErrScreen,
		"\x1b[?25l":          ErrScreen,
		"ls\rcd\r\x1b[A\r":   nil,
		"one\r\ntwo":         nil,
		"\x1b[?62;22c":       nil, // an answer: DA of xterm
		strings.Repeat("ls\r", 90) + "a\r\nb\r\n": nil,
	} {
		if _, err := ReadRecording(strings.NewReader(src)); !errors.Is(err, want) {
			t.Errorf("%q: %v, want %v", src, err, want)
		}
	}
}

// A recording that script -a added to another has the lines of both.
func TestFramesInTheMiddle(t *testing.T) {
	const started, done = "Script started on 2026-03-01 08:00:00+00:00 [TERM=\"x\"]\n", "\nScript done on 2026-03-01 08:09:00+00:00 [COMMAND_EXIT_CODE=\"0\"]\n"
	one := started + "ls\r\x1b[A\r" + done
	for n := range 4 {
		r, err := ReadRecording(strings.NewReader(strings.Repeat(one, n+1)))
		if err != nil || r.Text != int64(4*(n+1)) || r.Keys["ArrowUp"] != float64(n+1) || len(r.Keys) != 1 {
			t.Errorf("%d recordings: %+v, %v", n+1, r, err)
		}
	}
}
