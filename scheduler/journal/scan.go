package journal

import (
	"bytes"
	"time"
	"unicode/utf8"
)

// scratch is memory that one drill after another is decoded in.
type scratch struct {
	strokes [][2]string
	keys    []Key
	text    []byte
}

// drill decodes a drill as decodeDrill does, or gives up: on members and forms
// of numbers that Append does not write, and on whatever is unusual or wrong.
// The history of years consists of drills; this is what reads it in time.
func (d *decoder) drill(text []byte) (Drill, bool) {
	s := scan{b: text, d: d}
	var r Drill
	var met, bit uint
	s.byte('{')
	for !s.failed {
		switch string(s.raw()) {
		case "kind":
			bit = 1 << 0
			s.colon()
			s.raw()
		case "at":
			bit = 1 << 1
			s.colon()
			r.At = s.time()
		case "session":
			bit = 1 << 2
			r.Session = s.member()
		case "board":
			bit = 1 << 3
			r.Board = s.member()
		case "hash":
			bit = 1 << 4
			r.Hash = s.member()
		case "drill":
			bit = 1 << 5
			r.Kind = s.member()
		case "block":
			bit = 1 << 6
			r.Block = s.member()
		case "language":
			bit = 1 << 7
			r.Language = s.member()
		case "treatment":
			bit = 1 << 8
			r.Treatment = s.member()
		case "unordered":
			bit = 1 << 9
			s.colon()
			s.word("true")
			r.Unordered = true
		case "strokes":
			bit = 1 << 10
			s.colon()
			s.strokes()
		case "keys":
			bit = 1 << 11
			// The strokes come before the keys, or these cannot be told.
			s.failed = s.failed || met&(1<<10) == 0
			s.colon()
			r.Keys = s.keys()
		default:
			return r, false
		}
		if met&bit != 0 { // encoding/json has its own ways with a member that comes twice
			return r, false
		}
		met |= bit
		if !s.more('}') {
			break
		}
	}
	return r, !s.failed && s.i == len(text) && !r.At.IsZero() && r.Session != ""
}

// scan walks through compact JSON. After a failure it stands still and what
// it returns means nothing.
type scan struct {
	b      []byte
	i      int
	failed bool
	d      *decoder
}

// byte passes over c.
func (s *scan) byte(c byte) {
	if s.i < len(s.b) && s.b[s.i] == c {
		s.i++
		return
	}
	s.failed = true
}

func (s *scan) colon() { s.byte(':') }

// more passes over a comma, or over the closing bracket and returns false.
func (s *scan) more(closing byte) bool {
	if s.i < len(s.b) && s.b[s.i] == closing {
		s.i++
		return false
	}
	s.byte(',')
	return !s.failed
}

// at tells whether c comes next.
func (s *scan) at(c byte) bool { return !s.failed && s.i < len(s.b) && s.b[s.i] == c }

func (s *scan) word(w string) {
	if !bytes.HasPrefix(s.b[s.i:], []byte(w)) {
		s.failed = true
		return
	}
	s.i += len(w)
}

// raw reads a string that has nothing special in it.
func (s *scan) raw() []byte {
	text := s.string()
	if len(s.d.scratch.text) > 0 {
		s.failed = true
	}
	return text
}

// string reads a string. The bytes serve until the next one is read.
func (s *scan) string() []byte {
	s.d.scratch.text = s.d.scratch.text[:0]
	s.byte('"')
	start, ascii := s.i, true
	for ; !s.failed && s.i < len(s.b); s.i++ {
		switch c := s.b[s.i]; {
		case c == '"':
			text := s.b[start:s.i]
			s.i++
			if !ascii && !utf8.Valid(text) {
				s.failed = true
			}
			return text
		case c == '\\':
			return s.escaped(start)
		case c < ' ':
			s.failed = true
		case c >= utf8.RuneSelf:
			ascii = false
		}
	}
	s.failed = true
	return nil
}

// escaped goes on with a string from start in which an escape was met at s.i.
func (s *scan) escaped(start int) []byte {
	text := append(s.d.scratch.text, s.b[start:s.i]...)
	for ; !s.failed && s.i < len(s.b); s.i++ {
		switch c := s.b[s.i]; {
		case c == '"':
			s.i++
			s.d.scratch.text = text
			if !utf8.Valid(text) {
				s.failed = true
			}
			return text
		case c == '\\':
			s.i++
			text = append(text, s.escape())
		case c < ' ':
			s.failed = true
		default:
			text = append(text, c)
		}
	}
	s.failed = true
	return nil
}

// escape reads the letter of an escape; those with digits are left to encoding/json.
func (s *scan) escape() byte {
	if s.i < len(s.b) {
		switch c := s.b[s.i]; c {
		case '"', '\\', '/':
			return c
		case 'n':
			return '\n'
		case 't':
			return '\t'
		case 'r':
			return '\r'
		case 'b':
			return '\b'
		case 'f':
			return '\f'
		}
	}
	s.failed = true
	return 0
}

// member reads the string after a colon.
func (s *scan) member() string {
	s.colon()
	return s.kept(s.string())
}

// kept returns b as a string, the same one for the same bytes.
func (s *scan) kept(b []byte) string {
	if t, ok := s.d.seen[string(b)]; ok {
		return t
	}
	const most = 1 << 14 // a journal of nonsense shall not fill the memory
	if len(s.d.seen) >= most {
		clear(s.d.seen)
	}
	t := string(b)
	s.d.seen[t] = t
	return t
}

// digits reads n digits.
func (s *scan) digits(n int) int {
	if s.failed || len(s.b)-s.i < n {
		s.failed = true
		return 0
	}
	v := 0
	for _, c := range s.b[s.i : s.i+n] {
		if c < '0' || c > '9' {
			s.failed = true
			return 0
		}
		v = 10*v + int(c-'0')
	}
	s.i += n
	return v
}

// integer reads a number without sign, point or exponent.
func (s *scan) integer() int {
	start, v := s.i, 0
	for ; s.i < len(s.b) && s.b[s.i]-'0' <= 9; s.i++ {
		v = 10*v + int(s.b[s.i]-'0')
	}
	if n := s.i - start; n == 0 || n > 15 || n > 1 && s.b[start] == '0' {
		s.failed = true
	}
	return v
}

// ms reads a time in ms with at most one digit after the point. Tenths divided by
// ten are the float64 next to the decimal, which is what strconv.ParseFloat gives.
func (s *scan) ms() float64 {
	tenths := 10 * s.integer()
	if s.at('.') {
		s.i++
		tenths += s.digits(1)
	}
	v := float64(tenths) / 10
	s.failed = s.failed || !sensible(v)
	return v
}

// time reads a time as timeLayout writes it.
func (s *scan) time() time.Time {
	s.byte('"')
	year := s.digits(4)
	s.byte('-')
	month := s.digits(2)
	s.byte('-')
	day := s.digits(2)
	s.byte('T')
	hour := s.digits(2)
	s.byte(':')
	minute := s.digits(2)
	s.byte(':')
	second := s.digits(2)
	s.byte('.')
	milli := s.digits(3)
	place := s.zone()
	s.byte('"')
	t := time.Date(year, time.Month(month), day, hour, minute, second, milli*1e6, place)
	if hour > 23 || minute > 59 || second > 59 || t.Day() != day || int(t.Month()) != month {
		s.failed = true
	}
	return t
}

// zone reads Z or an offset.
func (s *scan) zone() *time.Location {
	if s.at('Z') {
		s.i++
		return time.UTC
	}
	sign := 1
	if s.at('-') {
		sign = -1
		s.i++
	} else {
		s.byte('+')
	}
	hours := s.digits(2)
	s.byte(':')
	minutes := s.digits(2)
	if hours > 23 || minutes > 59 {
		s.failed = true
	}
	offset := sign * (hours*60 + minutes) * 60
	place, ok := s.d.zones[offset]
	if !ok {
		place = time.FixedZone("", offset)
		s.d.zones[offset] = place
	}
	return place
}

// strokes reads the names of a drill's strokes into the scratch.
func (s *scan) strokes() {
	list := s.d.scratch.strokes[:0]
	s.byte('[')
	for !s.failed {
		s.byte('[')
		symbol := s.kept(s.string())
		s.byte(',')
		stroke := s.kept(s.string())
		s.byte(']')
		list = append(list, [2]string{symbol, stroke})
		if !s.more(']') {
			break
		}
	}
	s.d.scratch.strokes = list
}

// keys reads the keys of a drill, whose strokes are in the scratch.
func (s *scan) keys() []Key {
	list := s.d.scratch.keys[:0]
	s.byte('[')
	for !s.failed {
		list = append(list, s.key())
		if !s.more(']') {
			break
		}
	}
	s.d.scratch.keys = list
	return append([]Key(nil), list...)
}

func (s *scan) key() (k Key) {
	s.byte('[')
	i := s.integer()
	if strokes := s.d.scratch.strokes; i >= len(strokes) {
		s.failed = true
	} else {
		k.Symbol, k.Stroke = strokes[i][0], strokes[i][1]
	}
	s.byte(',')
	k.MS = s.ms()
	if !s.more(']') {
		return k
	}
	flags := s.integer()
	k.Flags = Flags(flags)
	s.failed = s.failed || int(k.Flags) != flags
	if !s.more(']') {
		return k
	}
	k.Got = s.kept(s.string())
	if !s.more(']') {
		return k
	}
	k.Lost = s.ms()
	if !s.more(']') {
		return k
	}
	k.Slip = s.kept(s.string())
	s.byte(']')
	return k
}
