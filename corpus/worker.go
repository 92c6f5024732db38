package corpus

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
)

// worker reads and counts files.
type worker struct {
	scan     *Scan
	counters map[string]*counter // by language
	buffer   []byte              // for sources
	view     []byte              // for their code views
	files    int64
	bytes    int64
	skipped  map[Reason]int64
	troubles []Trouble
}

func (w *worker) run(ctx context.Context, tree fs.FS, batches <-chan []found) {
	w.skipped = map[Reason]int64{}
	for batch := range batches {
		for _, f := range batch {
			if ctx.Err() != nil {
				break // go on taking batches: the walker waits for room
			}
			w.take(tree, f)
		}
	}
	for _, c := range w.counters {
		c.finish()
	}
}

// take counts one file, or says why not.
func (w *worker) take(tree fs.FS, f found) {
	reason, err := w.count(tree, f)
	if reason != "" {
		w.skipped[reason]++
	}
	if (err != nil || reason == Huge) && len(w.troubles) < maxTroubles {
		w.troubles = append(w.troubles, Trouble{f.name, reason, err})
	}
}

// count reads and counts one file, or returns why it did not.
func (w *worker) count(tree fs.FS, f found) (Reason, error) {
	src, err := w.read(tree, f.name)
	if err != nil {
		return Unreadable, err
	}
	if len(src) > hugeBytes {
		return Huge, nil
	}
	lang := w.scan.languages.Of(f.name, f.lang, src)
	if lang == nil || !w.scan.wants(lang) {
		return Unknown, nil
	}
	lines := bytes.Count(src, []byte{'\n'})
	if reason := judge(lang, src, lines); reason != "" && !w.scan.options.everything {
		return reason, nil
	}
	c := w.counters[lang.Name]
	if c == nil {
		c = newCounter(lang, w.scan.tokensOf(lang))
		w.counters[lang.Name] = c
	}
	if w.scan.options.Raw {
		c.addRaw(src, lines)
	} else {
		w.view = c.add(src, lines, f.tokens, w.view)
	}
	w.files++
	w.bytes += int64(len(src))
	if p := w.scan.options.Progress; p != nil {
		p.Files.Add(1)
		p.Bytes.Add(int64(len(src)))
	}
	return "", nil
}

// read reads a file up to one byte more than is wanted.
func (w *worker) read(tree fs.FS, name string) ([]byte, error) {
	f, err := tree.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	n := 0
	for n < len(w.buffer) {
		more, err := f.Read(w.buffer[n:])
		n += more
		if errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
	}
	return w.buffer[:n], nil
}
