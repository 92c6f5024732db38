package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"strconv"
)

// strokeSink takes strokes one after the other.
type strokeSink interface {
	write(exported) error
	end() error
}

// csvSink writes a head and a row a stroke.
type csvSink struct {
	out  *csv.Writer
	head bool
}

func (s *csvSink) write(r exported) error {
	if err := s.begin(); err != nil {
		return err
	}
	place := ""
	if r.Place != nil {
		place = strconv.Itoa(*r.Place)
	}
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	return s.out.Write([]string{
		r.Time, r.Session, strconv.FormatBool(r.Struck), r.Board, r.BoardHash, r.Drill, r.Block, r.Language, r.Treatment,
		place, r.Symbol, r.Stroke, r.Position, r.Layer, r.Got, r.Slip, number(r.LatencyMS), number(r.LostMS),
		strconv.FormatBool(r.First), strconv.FormatBool(r.AfterSlip), strconv.FormatBool(r.Helped), strconv.FormatBool(r.Paused),
		strconv.FormatBool(r.Switch), strconv.FormatBool(r.SameFinger), strconv.FormatBool(r.Repair), strconv.FormatBool(r.BoardSwitch),
	})
}

// columns are the names of exported's members.
func columns() []string {
	return []string{
		"time", "session", "struck", "board", "board_hash", "drill", "block", "language", "treatment",
		"place", "symbol", "stroke", "position", "layer", "got", "slip", "latency_ms", "lost_ms",
		"first", "after_slip", "helped", "paused", "switch", "same_finger", "repair", "board_switch",
	}
}

func (s *csvSink) begin() error {
	if s.head {
		return nil
	}
	s.head = true
	return s.out.Write(columns())
}

func (s *csvSink) end() error {
	if err := s.begin(); err != nil {
		return err
	}
	s.out.Flush()
	return s.out.Error()
}

// jsonSink writes an array with a line a stroke.
type jsonSink struct {
	out *bufio.Writer
	row bytes.Buffer
	n   int
}

func (s *jsonSink) write(r exported) error {
	s.row.Reset()
	enc := json.NewEncoder(&s.row)
	enc.SetEscapeHTML(false) // symbols stay readable
	if err := enc.Encode(r); err != nil {
		return err
	}
	between := ",\n"
	if s.n == 0 {
		between = "[\n"
	}
	s.n++
	if _, err := s.out.WriteString(between); err != nil {
		return err
	}
	_, err := s.out.Write(bytes.TrimSuffix(s.row.Bytes(), []byte("\n")))
	return err
}

func (s *jsonSink) end() error {
	text := "\n]\n"
	if s.n == 0 {
		text = "[]\n"
	}
	_, err := s.out.WriteString(text)
	return err
}

// plainOutput is standard output for what is from files: made safe line by line where
// it is a terminal.
func (e *Env) plainOutput() io.Writer {
	if e.Terminal(e.Stdout) {
		return safeWriter{e.Stdout}
	}
	return e.Stdout
}

type safeWriter struct{ to io.Writer }

func (w safeWriter) Write(p []byte) (int, error) {
	if _, err := io.WriteString(w.to, safe(string(p))); err != nil {
		return 0, err
	}
	return len(p), nil
}
