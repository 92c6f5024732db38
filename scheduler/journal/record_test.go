package journal

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// The values are those of RFC 3720, appendix B.4, and the check value of the
// catalogue of parametrised CRC algorithms for "123456789" (from memory).
func TestChecksumIsCRC32C(t *testing.T) {
	up, down := make([]byte, 32), make([]byte, 32)
	for i := range 32 {
		up[i], down[i] = byte(i), byte(31-i)
	}
	for _, c := range []struct {
		data []byte
		want uint32
	}{
		{make([]byte, 32), 0x8a9136aa},
		{bytes.Repeat([]byte{0xff}, 32), 0x62a8ab43},
		{up, 0x46dd794e},
		{down, 0x113fdb5c},
		{[]byte("123456789"), 0xe3069283},
	} {
		if got := checksum(c.data); got != c.want {
			t.Errorf("checksum of %x is %08x, want %08x", c.data, got, c.want)
		}
	}
}

func noon(t *testing.T) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, "2026-03-01T18:04:05.678+01:00")
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// These lines are the format: files that hold them exist.
func TestLinesByteByByte(t *testing.T) {
	at := noon(t)
	keys := []Key{
		{Symbol: `"`, Stroke: "r4c3:hold r2c8", MS: 412.34, Flags: First | Helped},
		{Symbol: "<", Stroke: "r4c3:hold r1c3", Got: "Unidentified", Slip: "layer", MS: 280, Lost: 1450.06, Flags: Switch},
		{Symbol: `"`, Stroke: "r4c3:hold r2c8", MS: 251.06},
	}
	for _, c := range []struct {
		r    Record
		want string
	}{
		{Header{at, 1, "k2f"}, `d8bdcddf {"kind":"header","at":"2026-03-01T18:04:05.678+01:00","version":1,"machine":"k2f"}`},
		{Board{at, "split-38", "9f3c", "name = \"split-38\"\n"}, `26102cb7 {"kind":"board","at":"2026-03-01T18:04:05.678+01:00","name":"split-38","hash":"9f3c","source":"name = \"split-38\"\n"}`},
		{Drill{At: at, Session: "s1", Board: "split-38", Hash: "9f3c", Kind: "token", Block: "new", Language: "go", Treatment: "wait", Keys: keys},
			`3a53fa0b {"kind":"drill","at":"2026-03-01T18:04:05.678+01:00","session":"s1","board":"split-38","hash":"9f3c","drill":"token","block":"new","language":"go","treatment":"wait",` +
				`"strokes":[["\"","r4c3:hold r2c8"],["<","r4c3:hold r1c3"]],"keys":[[0,412.3,5],[1,280,16,"Unidentified",1450.1,"layer"],[0,251.1]]}`},
		{Drill{At: at.UTC(), Session: "s1", Unordered: true, Keys: keys},
			`f6955975 {"kind":"drill","at":"2026-03-01T17:04:05.678Z","session":"s1","unordered":true,` +
				`"strokes":[["\"","r4c3:hold r2c8"],["<","r4c3:hold r1c3"]],"keys":[[0,251.1],[0,412.3,5],[1,280,16,"Unidentified",1450.1,"layer"]]}`},
		{Strike{at, "s1", false}, `eb621517 {"kind":"strike","at":"2026-03-01T18:04:05.678+01:00","session":"s1"}`},
		{Strike{at, "s1", true}, `143d91f7 {"kind":"strike","at":"2026-03-01T18:04:05.678+01:00","session":"s1","undo":true}`},
	} {
		line, err := Encode(c.r)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := string(line), c.want+"\n"; got != want {
			t.Errorf("got  %swant %s", got, want)
		}
	}
}

// The example in the package comment.
func TestExampleOfTheComment(t *testing.T) {
	const line = `7baddfdb {"kind":"strike","at":"2026-03-01T18:04:05.000+01:00","session":"k2f"}` + "\n"
	r, err := newDecoder().line([]byte(line))
	if err != nil {
		t.Fatal(err)
	}
	if s := r.(Strike); s.Session != "k2f" || s.At.UnixMilli() != 1772384645000 {
		t.Errorf("read %+v", s)
	}
}

func anyText() *rapid.Generator[string] {
	return rapid.OneOf(rapid.SampledFrom([]string{"(", "\"", "\\", "<", "é", "Escape", "", "\u2028", "\xff", "a\nb", "Control+w"}), rapid.String())
}

func anyKey(t *rapid.T) Key {
	ms := rapid.Float64Range(0, 1e6)
	return Key{
		Symbol: anyText().Draw(t, "symbol"), Stroke: rapid.SampledFrom([]string{"r1c1", "r4c3:hold r2c2", ""}).Draw(t, "stroke"),
		Got: rapid.SampledFrom([]string{"", "", "", "x", "\"", "\xfe"}).Draw(t, "got"), Slip: rapid.SampledFrom([]string{"", "", "column"}).Draw(t, "slip"),
		MS: ms.Draw(t, "ms"), Lost: rapid.OneOf(rapid.Just(0.0), ms).Draw(t, "lost"), Flags: Flags(rapid.Uint16().Draw(t, "flags")),
	}
}

func anyDrill(t *rapid.T) Drill {
	zone := time.FixedZone("", 60*rapid.IntRange(-14*60, 14*60).Draw(t, "zone"))
	d := Drill{
		At:      time.UnixMilli(rapid.Int64Range(-6e13, 2.5e14).Draw(t, "at")).In(zone),
		Session: rapid.StringN(1, 8, -1).Draw(t, "session"), Board: anyText().Draw(t, "board"), Hash: "0f", Kind: "token",
		Unordered: rapid.Bool().Draw(t, "unordered"),
	}
	for range rapid.IntRange(0, 9).Draw(t, "keys") {
		d.Keys = append(d.Keys, anyKey(t))
	}
	return d
}

// equal compares drills as far as the format tells them apart.
func equal(a, b Drill) string {
	return cmp.Diff(a, b, cmp.Comparer(func(s, t time.Time) bool { return s.Format(timeLayout) == t.Format(timeLayout) }))
}

func TestDrillsAreReadAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		once, err := d.Written()
		if err != nil {
			t.Fatal(err)
		}
		again, err := once.Written()
		if err != nil {
			t.Fatal(err)
		}
		if diff := equal(once, again); diff != "" {
			t.Errorf("written twice: %s", diff)
		}
		if len(once.Keys) != len(d.Keys) || once.At.UnixMilli() != d.At.UnixMilli() || once.Board != strings.ToValidUTF8(d.Board, "\ufffd") {
			t.Errorf("wrote %+v, read %+v", d, once)
		}
		for i, k := range once.Keys {
			if o := d.Keys[i]; !d.Unordered && (math.Abs(k.MS-o.MS) > .05001 || math.Abs(k.Lost-o.Lost) > .05001 || k.Flags != o.Flags || k.Wrong() != o.Wrong()) {
				t.Errorf("key %d: wrote %+v, read %+v", i, o, k)
			}
		}
	})
}

// The text of an unordered drill cannot be put together again: any order of
// the same keys is written the same.
func TestUnorderedKeepsNoOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		d.Unordered = true
		a, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		d.Keys = rapid.Permutation(d.Keys).Draw(t, "order")
		if b, _ := Encode(d); !bytes.Equal(a, b) {
			t.Errorf("two orders give\n%s%s", a, b)
		}
	})
}

func TestRecordsThatAreNotWritten(t *testing.T) {
	at := noon(t)
	for name, r := range map[string]Record{
		"year":       Strike{At: at.AddDate(9000, 0, 0), Session: "s"},
		"no session": Drill{At: at},
		"no such":    Strike{At: at},
		"latency":    Drill{At: at, Session: "s", Keys: []Key{{MS: math.NaN()}}},
		"lost":       Drill{At: at, Session: "s", Keys: []Key{{Lost: -1}}},
		"endless":    Drill{At: at, Session: "s", Keys: []Key{{MS: math.Inf(1)}}},
		"not UTF-8":  Board{At: at, Source: "\xff"},
		"unknown":    Other{Kind: "mark"},
		"too long":   Board{At: at, Source: strings.Repeat("#", maxLine)},
	} {
		if line, err := Encode(r); err == nil {
			t.Errorf("%s: wrote %s", name, line)
		}
	}
}

func TestUnknownIsPassedOver(t *testing.T) {
	d := newDecoder()
	r, err := d.record([]byte(`{"kind":"drill","at":"2026-03-01T18:04:05.678+01:00","session":"s1","mood":{"good":[1,2]},"strokes":[["a","r1c1"]],"keys":[[0,100,0,"",0,"",{"new":1}]]}`))
	if err != nil {
		t.Fatal(err)
	}
	if k := r.(Drill).Keys; len(k) != 1 || k[0].Symbol != "a" || k[0].MS != 100 {
		t.Errorf("read %+v", r)
	}
	r, err = d.record([]byte(`{"kind":"mark","x":1}`))
	if err != nil {
		t.Fatal(err)
	}
	if r != (Other{"mark", `{"kind":"mark","x":1}`}) {
		t.Errorf("read %+v", r)
	}
}

func TestEndOfKeys(t *testing.T) {
	at := noon(t)
	d := Drill{At: at, Keys: []Key{{MS: 100, Lost: 50}, {MS: 200}, {MS: 300.5}}}
	for i, want := range []time.Duration{100e6, 350e6, 650.5e6} {
		if got := d.End(i).Sub(at); got != want {
			t.Errorf("key %d ends after %v, want %v", i, got, want)
		}
	}
}

// FuzzDrill holds the fast decoder against encoding/json: what it accepts,
// both read the same.
func FuzzDrill(f *testing.F) {
	for _, s := range []string{
		`{"kind":"drill","at":"2026-03-01T18:04:05.678+01:00","session":"s1","strokes":[["\"","r4c3:hold r2c8"],["<","r1c3"]],"keys":[[0,412.3,5],[1,280,16,"Unidentified",1450.1,"layer"],[0,251.1]]}`,
		`{"kind":"drill","at":"2026-03-01T17:04:05.678Z","session":"é\n","unordered":true,"board":"b","hash":"h","drill":"d","block":"n","language":"go","treatment":"wait"}`,
		`{"kind":"drill","at":"2026-02-29T17:04:05.678Z","session":"s"}`,
		`{"kind":"drill","at":"2026-03-01T17:04:05.678Z","session":"s","session":"t","keys":[[0,1]],"strokes":[["a","b"]]}`,
		`{"kind":"drill","at":"2026-03-01T17:04:05.678-23:59","session":"\u00e9","Keys":[],"strokes":null,"keys":[[0,01.0]]}`,
		`{"kind":"drill","at":"2026-03-01T17:04:05.678Z","session":"s","strokes":[["a","b"]],"keys":[[0,999999999999999999999],[0,1.25],[0,-0],[0,1e3],[0,1,65536],[0,1,null]]}`,
	} {
		f.Add([]byte(s))
	}
	f.Add([]byte(`{"kind":"drill","at":"2026-03-01T17:04:05.678Z","session":"s","keys":[[0,1]],"strokes":[["a","b"]]}`))
	before := []byte(`{"kind":"drill","at":"2026-03-01T17:04:05.678Z","session":"z","strokes":[["y","x"]],"keys":[[0,1,0,"\""]]}`)
	f.Fuzz(func(t *testing.T, text []byte) {
		d := newDecoder() // what it keeps of the drill before does not matter
		if _, ok := d.drill(before); !ok {
			t.Fatal("left to encoding/json")
		}
		fast, ok := d.drill(text)
		if !ok {
			return
		}
		slow, err := decodeDrill(text)
		if err != nil {
			t.Fatalf("only the fast decoder reads %q: %v", text, err)
		}
		if diff := equal(fast, slow.(Drill)); diff != "" {
			t.Errorf("%q: %s", text, diff)
		}
	})
}

// What Append writes is read by the fast decoder, else it would be in vain.
func TestFastDecoderReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		for i := range d.Keys {
			d.Keys[i].Symbol = rapid.SampledFrom([]string{"(", "\"", "\\", "<", "&", "é", "Escape", "\t"}).Draw(t, "plain")
			d.Keys[i].Got = rapid.SampledFrom([]string{"", "'", "\""}).Draw(t, "got")
		}
		d.Session, d.Board = "s", "split-38"
		line, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		text, err := content(line)
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := newDecoder().drill(text); !ok && d.At.Year() > 1 {
			t.Errorf("left to encoding/json: %s", text)
		}
	})
}
