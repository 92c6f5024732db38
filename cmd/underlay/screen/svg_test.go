package screen

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

// The picture is well-formed XML, read by another reader, and every text on
// the screen is in it where the cells say.
func TestPictureHasWhatTheScreenHas(t *testing.T) {
	for _, sc := range scenes() {
		v := sc.view(t)
		var b bytes.Buffer
		if err := WriteSVG(&b, v, 80, 24, "a <title> & more"); err != nil {
			t.Fatal(err)
		}
		got := svgTexts(t, b.Bytes())
		var s sheet
		s.resize(80, 24)
		s.clear()
		draw(&s, v, false, new(places))
		var want strings.Builder
		for y := range s.h {
			for _, c := range s.row(y) {
				want.WriteString(c.text)
			}
		}
		strip := func(x string) string { return strings.Join(strings.Fields(x), "") }
		if strip(got) != strip(want.String()) {
			t.Errorf("%s: the picture says\n%s\nthe screen\n%s", sc.name, strip(got), strip(want.String()))
		}
	}
}

func svgTexts(t *testing.T, src []byte) string {
	t.Helper()
	var out strings.Builder
	in := ""
	for d := xml.NewDecoder(bytes.NewReader(src)); ; {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out.String()
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			in = tok.Name.Local
		case xml.EndElement:
			in = ""
		case xml.CharData:
			if in == "text" {
				out.Write(tok)
			}
		}
	}
}
