package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"underlay/corpus"
)

// keysWish is what a command line asks of a recording.
type keysWish struct {
	name         string
	asJSON, away bool
}

func newCorpusKeys(env *Env) *cobra.Command {
	w := keysWish{}
	c := &cobra.Command{
		Use:   "keys FILE",
		Short: "Count the keys in a recording of your own",
		Long: `Counts the strokes that no text shows (Escape, arrows, Backspace, function keys,
chords with Control) in a recording of raw terminal input, and keeps them as your
own table "keys", with their share of all strokes. No text is kept.

A recording is made with the standard script command, which starts a shell and
writes down what you type until you leave it:

  script --log-in typed.raw --log-out /dev/null

Such a recording holds everything that was typed meanwhile, passwords too. Make it
where nobody else reads, and delete it when it has been counted.

The bytes do not tell everything: Escape and a character are counted as those two,
as a modal editor reads them; Tab, Enter, Escape and Backspace are counted as keys,
though a chord with Control may send the same.`,
		Example: `  underlay corpus keys typed.raw
  underlay corpus keys typed.raw --delete`,
		Args: takes(1, 1),
		RunE: func(_ *cobra.Command, args []string) error { return env.keys(args[0], w) },
	}
	c.Flags().StringVar(&w.name, "name", keysTable, "keep the counts as the table `NAME`")
	c.Flags().BoolVar(&w.asJSON, "json", false, "print the counts as one JSON object")
	c.Flags().BoolVar(&w.away, "delete", false, "delete the recording when it has been counted, without a question")
	return c
}

func (e *Env) keys(file string, w keysWish) error {
	if err := checkTableName(w.name); err != nil {
		return err
	}
	r, err := readRecording(file)
	if err != nil {
		return err
	}
	if r.Strokes() == 0 {
		return misuse("corpus keys: there are no keys in %q", file).hinted(howToRecord)
	}
	table := r.Table(w.name)
	if w.asJSON {
		err = e.json(asRecorded(r))
	} else {
		e.writeRecording(r)
	}
	if err != nil {
		return err
	}
	if len(r.Keys) == 0 {
		fmt.Fprintln(e.Stderr, "no table was kept: all that was typed is text")
	} else if err := e.keepTable(table, !w.asJSON); err != nil {
		return err
	}
	return e.offerToDelete(file, w.away)
}

const howToRecord = "record with: script --log-in FILE --log-out /dev/null"

func readRecording(file string) (*corpus.Recording, error) {
	info, err := os.Stat(file)
	if err == nil && !info.Mode().IsRegular() {
		return nil, misuse("read the recording %q: it is no file", file)
	}
	if err != nil {
		return nil, misuse("%w", tried("read the recording", file, err))
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, misuse("%w", tried("read the recording", file, err))
	}
	defer f.Close()
	r, err := corpus.ReadRecording(f)
	switch {
	case errors.Is(err, corpus.ErrScreen):
		return nil, misuse("read the recording %q: it is %w", file, err).hinted(howToRecord)
	case errors.Is(err, corpus.ErrTooLong):
		return nil, misuse("read the recording %q: it is %w", file, err)
	case err != nil:
		return nil, tried("read the recording", file, err)
	}
	return r, nil
}

// recorded is a recording in JSON.
type recorded struct {
	Strokes float64       `json:"strokes"`
	Text    int64         `json:"text"`
	Share   float64       `json:"keys_share"`
	Keys    corpus.Counts `json:"keys"`
	Pasted  int64         `json:"pasted_bytes"`
	Replies int64         `json:"replies"`
}

func asRecorded(r *corpus.Recording) recorded {
	return recorded{r.Strokes(), r.Text, r.Keys.Total() / r.Strokes(), r.Keys, r.Pasted, r.Replies}
}

func (e *Env) writeRecording(r *corpus.Recording) {
	fmt.Fprintf(e.Stdout, "%s strokes, %.1f %% of them keys that no text shows\n", grouped(r.Strokes()), 100*r.Keys.Total()/r.Strokes())
	if r.Pasted > 0 {
		fmt.Fprintf(e.Stdout, "%s bytes were pasted and are not counted\n", grouped(float64(r.Pasted)))
	}
	const few = 2000
	if r.Strokes() < few {
		fmt.Fprintf(e.Stdout, "that is little: %s strokes more would make it dependable\n", grouped(few-r.Strokes()))
	}
	const most = 30
	e.writeBars("keys, in a thousand strokes", r.Keys.Top(most), r.Strokes())
}

// offerToDelete warns of what a recording holds and deletes it on demand.
func (e *Env) offerToDelete(file string, away bool) error {
	if !away {
		fmt.Fprintf(e.Stderr, "\n%q holds whatever was typed, passwords too.\n", file)
		if !e.interactive() {
			fmt.Fprintln(e.Stderr, "delete it, or count it again with --delete")
			return nil
		}
		fmt.Fprint(e.Stderr, "Delete it now? [y/N] ")
		answer, _ := bufio.NewReader(e.Stdin).ReadString('\n')
		if !strings.EqualFold(strings.TrimSpace(answer), "y") && !strings.EqualFold(strings.TrimSpace(answer), "yes") {
			return nil
		}
	}
	if err := os.Remove(file); err != nil {
		return tried("delete the recording", file, err)
	}
	fmt.Fprintf(e.Stderr, "deleted %q\n", file)
	return nil
}
