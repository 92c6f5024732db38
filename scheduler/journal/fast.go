package journal

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
