package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"underlay/scheduler"
)

// hello lists four strokes: two letters, a symbol on a layer, and a letter on the other board.
const hello = `{"type":"hello","version":1,"items":[
{"id":0,"board":0,"layer":0,"hand":0,"finger":3,"row":1,"col":3,"glyph":"f","freq":0.5,"pswitch":0.2,"other":3},
{"id":1,"board":0,"layer":0,"hand":1,"finger":3,"row":1,"col":0,"glyph":"j","freq":0.3,"pswitch":0.2,"other":-1},
{"id":2,"board":0,"layer":2,"hand":1,"finger":2,"row":1,"col":2,"glyph":"{","freq":0.2,"pswitch":1,"other":-1},
{"id":3,"board":1,"layer":0,"hand":0,"finger":3,"row":1,"col":3,"glyph":"f","freq":1,"pswitch":0,"other":0}],
"lines":[[0,1,2,0,1,0,0,2,1],[1,0,1,1,0,2,0,1]],"old_ms":261.3,"days":30,"session_s":480}`

func oneLine(s string) string { return strings.ReplaceAll(s, "\n", "") }

// talk sends lines and returns the answers.
func talk(t *testing.T, args []string, lines ...string) (answers []string, status int, errors string) {
	t.Helper()
	var out, errs bytes.Buffer
	status = run(args, strings.NewReader(strings.Join(lines, "\n")+"\n"), &out, &errs)
	return strings.Split(strings.TrimSpace(out.String()), "\n"), status, errs.String()
}

func ask(day int, now, left float64) string {
	return fmt.Sprintf(`{"type":"ask","day":%d,"now":%f,"t":0,"left_s":%f,"first":true}`, day, now, left)
}

func result(now float64, ms float64) string {
	var keys []string
	for i := range 30 {
		now += ms / 1000
		keys = append(keys, fmt.Sprintf(`{"i":%d,"p":%d,"ms":%f,"ok":%t,"pr":%d,"now":%f}`, i%3, (i+2)%3, ms, i%10 != 9, i%3, now))
	}
	return `{"type":"result","keys":[` + strings.Join(keys, ",") + `]}`
}

func TestTalk(t *testing.T) {
	lines := []string{oneLine(hello), result(100, 700)} // a result may come before any ask
	for day := range 12 {
		now := 86400*float64(day) + 36000
		lines = append(lines, ask(day, now, 480), result(now, 900/(1+.2*float64(day))))
	}
	lines = append(lines, `{"type":"predict","at":1100000,"items":[0,2]}`, `{"type":"forecast","day":12,"target_ms":300}`,
		ask(12, 1.1e6, 0), `{"type":"bye"}`, `{"type":"ask"}`)
	answers, status, errors := talk(t, []string{"--seed", "3"}, lines...)
	if status != 0 || errors != "" || len(answers) != 1+12+3 {
		t.Fatalf("status %d, %q, %d answers: %q", status, errors, len(answers), answers)
	}
	if answers[0] != `{"type":"ready"}` || answers[15] != `{"type":"end"}` {
		t.Errorf("first %s, last %s", answers[0], answers[15])
	}
	var e exercise
	if err := json.Unmarshal([]byte(answers[5]), &e); err != nil || e.Type != "exercise" || len(e.Items) == 0 || len(e.Items) > 200 {
		t.Errorf("exercise %s: %v", answers[5], err)
	}
	var p prediction
	if err := json.Unmarshal([]byte(answers[13]), &p); err != nil || len(p.MS) != 2 || len(p.PErr) != 2 || p.MS[0] < 150 || p.MS[0] > 600 || p.PErr[0] <= 0 || p.PErr[0] >= .5 {
		t.Errorf("prediction %s: %v", answers[13], err)
	}
	var f forecast
	if err := json.Unmarshal([]byte(answers[14]), &f); err != nil || f.Lo == nil || f.Chance == nil {
		t.Errorf("forecast %s: %v", answers[14], err)
	}
	again, _, _ := talk(t, []string{"--seed", "3"}, lines...)
	if strings.Join(again, "") != strings.Join(answers, "") {
		t.Error("the same talk with the same seed goes otherwise")
	}
}

// Before ten sessions a forecast holds everything: a skip would end the questions.
func TestForecastBeforeAnythingIsKnown(t *testing.T) {
	answers, _, _ := talk(t, nil, oneLine(hello), ask(0, 36000, 480), result(36000, 600), `{"type":"forecast","day":0,"target_ms":300}`)
	if got := answers[2]; got != `{"type":"forecast","lo":0,"median":null,"hi":null}` {
		t.Errorf("forecast %s", got)
	}
}

// What the lines show of switches counts, where it is enough; else what was declared.
func TestSwitchesAreMeasuredInLines(t *testing.T) {
	strokes := []scheduler.Stroke{{Layer: 0, Switch: .9}, {Layer: 1, Switch: .1}, {Layer: 1, Switch: .3}}
	measureSwitches(strokes, [][]int{{0, 1, 0, 0}, {0, 1, 0, 0}, {0, 1, 1, 2}, {0, 1}})
	if got := []float64{strokes[0].Switch, strokes[1].Switch, strokes[2].Switch}; got[0] != .5 || got[1] != .8 || got[2] != .3 {
		t.Errorf("shares of switches %v", got)
	}
}

func TestBadMessages(t *testing.T) {
	for _, c := range []struct{ what, line, want string }{
		{"no JSON", "nonsense", "line 2: "},
		{"no such type", `{"type":"sing"}`, "line 2: sing: no such type"},
		{"no such item", `{"type":"result","keys":[{"i":9,"p":-1,"ms":1,"ok":true,"pr":9,"now":1}]}`, "no item 9"},
		{"prediction of none", `{"type":"predict","at":1,"items":[4]}`, "no item 4"},
		{"ids with holes", `{"type":"hello","items":[{"id":1}]}`, "item 0 has id 1"},
		{"line of none", `{"type":"hello","items":[{"id":0}],"lines":[[0,7]]}`, "no item 7"},
	} {
		_, status, errors := talk(t, nil, oneLine(hello), c.line)
		if status != 1 || !strings.Contains(errors, c.want) {
			t.Errorf("%s: status %d, %q", c.what, status, errors)
		}
	}
	if _, status, errors := talk(t, nil, ask(0, 0, 60)); status != 1 || !strings.Contains(errors, "hello must come first") {
		t.Errorf("ask first: status %d, %q", status, errors)
	}
	for _, args := range [][]string{{"--seeds"}, {"--seed", "x"}, {"more"}} {
		if _, status, errors := talk(t, args, `{"type":"bye"}`); status != 2 || errors == "" {
			t.Errorf("%v: status %d, %q", args, status, errors)
		}
	}
}
