package journal

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// A line's parts: eight digits, a space, at least {"kind":""}, a line feed.
const (
	headLen = 9
	kindTag = `{"kind":"`
)

var errNoRecord = errors.New(`not a line of the form "checksum {json}"`)

// content checks a line and returns its JSON.
func content(line []byte) ([]byte, error) {
	if len(line) < headLen+2 || line[headLen-1] != ' ' || line[len(line)-1] != '\n' {
		return nil, errNoRecord
	}
	text := line[headLen : len(line)-1]
	want, ok := parseChecksum(line[:headLen-1])
	if !ok {
		return nil, errNoRecord
	}
	if got := checksum(text); got != want {
		return nil, fmt.Errorf("the checksum is %08x, the line says %08x", got, want)
	}
	return text, nil
}

func parseChecksum(digits []byte) (uint32, bool) {
	var sum [4]byte
	if _, err := hex.Decode(sum[:], digits); err != nil || bytes.ContainsAny(digits, "ABCDEF") {
		return 0, false
	}
	return uint32(sum[0])<<24 | uint32(sum[1])<<16 | uint32(sum[2])<<8 | uint32(sum[3]), true
}

// kindOf returns the kind of a record, "" where there is none.
func kindOf(text []byte) string {
	rest, ok := bytes.CutPrefix(text, []byte(kindTag))
	if !ok {
		return ""
	}
	kind, _, ok := bytes.Cut(rest, []byte{'"'})
	if !ok {
		return ""
	}
	switch string(kind) { // constants, so that the usual kinds allocate nothing
	case "drill":
		return "drill"
	case "board":
		return "board"
	}
	return string(kind)
}

// decoder turns lines into records. It keeps one copy of strings that recur.
type decoder struct {
	seen    map[string]string
	zones   map[int]*time.Location
	scratch scratch
}

func newDecoder() *decoder {
	return &decoder{seen: map[string]string{}, zones: map[int]*time.Location{0: time.UTC}}
}

// line decodes a line with its line feed.
func (d *decoder) line(line []byte) (Record, error) {
	text, err := content(line)
	if err != nil {
		return nil, err
	}
	return d.record(text)
}

// record decodes the JSON of a line.
func (d *decoder) record(text []byte) (Record, error) {
	switch kind := kindOf(text); kind {
	case "":
		return nil, errors.New("the record has no kind")
	case "drill":
		if r, ok := d.drill(text); ok {
			return r, nil
		}
		return decodeDrill(text)
	case "header":
		var w wireHeader
		return decode(text, &w, func(at time.Time) (Record, error) {
			if w.Version < 1 {
				return nil, fmt.Errorf("version %d does not exist", w.Version)
			}
			return Header{at, w.Version, w.Machine}, nil
		}, &w.At)
	case "board":
		var w wireBoard
		return decode(text, &w, func(at time.Time) (Record, error) {
			return Board{at, w.Name, w.Hash, w.Source}, nil
		}, &w.At)
	case "strike":
		var w wireStrike
		return decode(text, &w, func(at time.Time) (Record, error) {
			if w.Session == "" {
				return nil, errors.New("the strike names no session")
			}
			return Strike{at, w.Session, w.Undo}, nil
		}, &w.At)
	default:
		if !json.Valid(text) {
			return nil, errors.New("the record is not JSON")
		}
		return Other{kind, string(text)}, nil
	}
}

// decode unmarshals text into w and hands the time at to finish.
func decode(text []byte, w any, finish func(time.Time) (Record, error), at *string) (Record, error) {
	if err := json.Unmarshal(text, w); err != nil {
		return nil, err
	}
	t, err := parseTime(*at)
	if err != nil {
		return nil, err
	}
	return finish(t)
}

// readDrill is wireDrill for reading.
type readDrill struct {
	wireDrill
	Keys [][]json.RawMessage `json:"keys"`
}

// decodeDrill decodes a drill by encoding/json. It defines what decoder.drill,
// which is faster, has to give.
func decodeDrill(text []byte) (Record, error) {
	var w readDrill
	return decode(text, &w, func(at time.Time) (Record, error) {
		d := Drill{at, w.Session, w.Board, w.Hash, w.Drill, w.Block, w.Language, w.Treatment, w.Unordered, nil}
		if w.Session == "" {
			return nil, errors.New("the drill has no session")
		}
		for i, raw := range w.Keys {
			k, err := decodeKey(raw, w.Strokes)
			if err != nil {
				return nil, fmt.Errorf("key %d: %w", i, err)
			}
			d.Keys = append(d.Keys, k)
		}
		return d, nil
	}, &w.At)
}

func decodeKey(raw []json.RawMessage, strokes [][2]string) (Key, error) {
	var k Key
	if len(raw) < 2 {
		return k, errors.New("it has no latency")
	}
	var stroke int
	for i, to := range []any{&stroke, &k.MS, &k.Flags, &k.Got, &k.Lost, &k.Slip} {
		if i == len(raw) {
			break
		}
		if err := json.Unmarshal(raw[i], to); err != nil {
			return k, err
		}
	}
	if stroke < 0 || stroke >= len(strokes) {
		return k, fmt.Errorf("there is no stroke %d", stroke)
	}
	if !sensible(k.MS) || !sensible(k.Lost) {
		return k, fmt.Errorf("%v ms and %v ms are no times", k.MS, k.Lost)
	}
	k.Symbol, k.Stroke = strokes[stroke][0], strokes[stroke][1]
	return k, nil
}
