package journal

import (
	"bytes"
	"time"
	"unicode/utf8"
)

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
