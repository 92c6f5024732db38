package journal

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// timeLayout is RFC 3339 with milliseconds.
const timeLayout = "2006-01-02T15:04:05.000Z07:00"

// maxMS bounds a time within a drill: eleven days.
const maxMS = 1e9

func checksum(b []byte) uint32 { return crc32.Checksum(b, crc32.MakeTable(crc32.Castagnoli)) }

// Encode returns the line that holds r, with its line feed: a Header, Board, Drill
// or Strike. It fails for times that are none, and for what names no session.
func Encode(r Record) ([]byte, error) {
	w, err := wire(r)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	if err := out.Encode(w); err != nil {
		return nil, fmt.Errorf("write a journal record: %w", err)
	}
	if b.Len() > maxLine-headLen {
		return nil, fmt.Errorf("write a journal record: it has %d bytes; %d are the most that is read", b.Len(), maxLine)
	}
	line := fmt.Appendf(nil, "%08x ", checksum(bytes.TrimSuffix(b.Bytes(), []byte("\n"))))
	return append(line, b.Bytes()...), nil
}

// wire returns what is marshalled for r.
func wire(r Record) (any, error) {
	if y := r.When().Year(); y < 0 || y > 9999 {
		return nil, fmt.Errorf("write a journal record: the year %d has not four digits", y)
	}
	at := r.When().Format(timeLayout)
	switch r := r.(type) {
	case Header:
		return wireHeader{"header", at, r.Version, r.Machine}, nil
	case Board:
		if !utf8.ValidString(r.Source) {
			return nil, fmt.Errorf("write the board %q to the journal: its file is not UTF-8", r.Name)
		}
		return wireBoard{"board", at, r.Name, r.Hash, r.Source}, nil
	case Drill:
		return toWire(r, at)
	case Strike:
		if r.Session == "" {
			return nil, errors.New("write a journal record: a strike without a session")
		}
		return wireStrike{"strike", at, r.Session, r.Undo}, nil
	}
	return nil, fmt.Errorf("write a journal record: %T is not one that is written", r)
}

type wireHeader struct {
	Kind    string `json:"kind"`
	At      string `json:"at"`
	Version int    `json:"version"`
	Machine string `json:"machine"`
}

type wireBoard struct {
	Kind   string `json:"kind"`
	At     string `json:"at"`
	Name   string `json:"name,omitempty"`
	Hash   string `json:"hash,omitempty"`
	Source string `json:"source,omitempty"`
}

type wireStrike struct {
	Kind    string `json:"kind"`
	At      string `json:"at"`
	Session string `json:"session"`
	Undo    bool   `json:"undo,omitempty"`
}

type wireDrill struct {
	Kind      string      `json:"kind"`
	At        string      `json:"at"`
	Session   string      `json:"session"`
	Board     string      `json:"board,omitempty"`
	Hash      string      `json:"hash,omitempty"`
	Drill     string      `json:"drill,omitempty"`
	Block     string      `json:"block,omitempty"`
	Language  string      `json:"language,omitempty"`
	Treatment string      `json:"treatment,omitempty"`
	Unordered bool        `json:"unordered,omitempty"`
	Strokes   [][2]string `json:"strokes,omitempty"`
	Keys      [][]any     `json:"keys,omitempty"`
}

func toWire(d Drill, at string) (wireDrill, error) {
	w := wireDrill{"drill", at, d.Session, d.Board, d.Hash, d.Kind, d.Block, d.Language, d.Treatment, d.Unordered, nil, nil}
	if d.Session == "" {
		return w, errors.New("write a journal record: a drill without a session")
	}
	keys := make([]Key, len(d.Keys))
	for i, k := range d.Keys {
		if !sensible(k.MS) || !sensible(k.Lost) {
			return w, fmt.Errorf("write a journal record: %q took %v ms and %v ms", k.Symbol, k.MS, k.Lost)
		}
		keys[i] = rounded(k)
	}
	if d.Unordered {
		slices.SortFunc(keys, compareKeys)
	}
	index := map[[2]string]int{}
	for _, k := range keys {
		name := [2]string{k.Symbol, k.Stroke}
		i, ok := index[name]
		if !ok {
			i = len(w.Strokes)
			index[name] = i
			w.Strokes = append(w.Strokes, name)
		}
		w.Keys = append(w.Keys, wireKey(i, k))
	}
	return w, nil
}

// wireKey leaves out what is zero at the end.
func wireKey(i int, k Key) []any {
	a := []any{i, k.MS, k.Flags, k.Got, k.Lost, k.Slip}
	empty := []any{nil, nil, Flags(0), "", 0.0, ""}
	for n := len(a); n > 2; n-- {
		if a[n-1] != empty[n-1] {
			return a[:n]
		}
	}
	return a[:2]
}

// compareKeys is the order of an unordered drill's keys.
func compareKeys(a, b Key) int {
	return cmp.Or(cmp.Compare(a.Symbol, b.Symbol), cmp.Compare(a.Stroke, b.Stroke), cmp.Compare(a.Flags, b.Flags),
		cmp.Compare(a.Got, b.Got), cmp.Compare(a.MS, b.MS), cmp.Compare(a.Lost, b.Lost), cmp.Compare(a.Slip, b.Slip))
}

// rounded is k as the file can hold it.
func rounded(k Key) Key {
	for _, s := range []*string{&k.Symbol, &k.Stroke, &k.Got, &k.Slip} {
		*s = strings.ToValidUTF8(*s, "\ufffd")
	}
	for _, ms := range []*float64{&k.MS, &k.Lost} {
		*ms = math.Abs(math.Round(*ms*10) / 10)
	}
	return k
}

func sensible(ms float64) bool { return ms >= 0 && ms < maxMS }

// Written returns d as it will be read back: times rounded, the keys of an
// unordered drill sorted. Who learns from that learns the same from the journal.
// It fails where Append would.
func (d Drill) Written() (Drill, error) {
	line, err := Encode(d)
	if err != nil {
		return Drill{}, err
	}
	r, err := newDecoder().line(line)
	if err != nil {
		return Drill{}, err
	}
	return r.(Drill), nil
}

// parseTime reads a time, with a zone that has no name but its offset.
func parseTime(s string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		return t, fmt.Errorf("%q is not a time as in RFC 3339", s)
	}
	return t.In(zone(t)), nil
}

func zone(t time.Time) *time.Location {
	_, offset := t.Zone()
	if offset == 0 {
		return time.UTC
	}
	return time.FixedZone("", offset)
}
