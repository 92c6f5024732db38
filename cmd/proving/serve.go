package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"underlay/scheduler"
)

// longestLine is as many bytes as a message may have.
const longestLine = 64 << 20

// serve answers messages until bye or the end of the input.
func serve(in io.Reader, out io.Writer, seed uint64) error {
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 1<<16), longestLine)
	w := bufio.NewWriter(out)
	t := &trainer{seed: seed}
	for n := 1; lines.Scan(); n++ {
		if len(lines.Bytes()) == 0 {
			continue
		}
		m, err := decode(lines.Bytes())
		if err != nil {
			return fmt.Errorf("line %d: %w", n, err)
		}
		if m.Type == "bye" {
			break
		}
		answer, err := t.answer(m)
		if err != nil {
			return fmt.Errorf("line %d: %s: %w", n, m.Type, err)
		}
		if answer == nil {
			continue
		}
		if err := json.NewEncoder(w).Encode(answer); err != nil {
			return err
		}
		if err := w.Flush(); err != nil {
			return err
		}
	}
	return lines.Err()
}

// decode reads a message; "items" are strokes in hello, ids elsewhere.
func decode(line []byte) (message, error) {
	var m message
	if err := json.Unmarshal(line, &m); err != nil {
		return m, err
	}
	var items struct {
		Items json.RawMessage `json:"items"`
	}
	if err := json.Unmarshal(line, &items); err != nil || items.Items == nil {
		return m, err
	}
	if m.Type == "hello" {
		return m, json.Unmarshal(items.Items, &m.Items)
	}
	return m, json.Unmarshal(items.Items, &m.IDs)
}

// trainer is the scheduler on the wire.
type trainer struct {
	seed      uint64
	scheduler *scheduler.Scheduler
	strokes   []scheduler.Stroke
	oldMS     float64
	lastWrong bool
	days      []int // the practised ones
}

func (t *trainer) answer(m message) (any, error) {
	if t.scheduler == nil && m.Type != "hello" {
		return nil, errors.New("hello must come first")
	}
	switch m.Type {
	case "hello":
		return reply{"ready"}, t.hello(m)
	case "ask":
		return t.ask(m), nil
	case "result":
		return nil, t.result(m.Keys)
	case "predict":
		return t.predict(m)
	case "forecast":
		return t.forecast(m), nil
	}
	return nil, errors.New("no such type of message")
}

func (t *trainer) hello(m message) error {
	strokes := make([]scheduler.Stroke, len(m.Items))
	for n, it := range m.Items {
		if it.ID != n {
			return fmt.Errorf("item %d has id %d; ids are to be 0, 1, 2, …", n, it.ID)
		}
		other := -1
		if it.Other != nil {
			other = *it.Other
		}
		strokes[n] = scheduler.Stroke{
			Board: it.Board, Layer: it.Layer, Hand: it.Hand, Finger: it.Finger, Row: it.Row, Col: it.Col,
			Freq: it.Freq, Switch: it.PSwitch, Other: other, Was: -1,
		}
	}
	for n, l := range m.Lines {
		for _, id := range l {
			if id < 0 || id >= len(strokes) {
				return fmt.Errorf("line %d: no item %d", n, id)
			}
			strokes[id].Text = true
		}
	}
	measureSwitches(strokes, m.Lines)
	t.strokes, t.oldMS = strokes, m.OldMS
	t.scheduler = scheduler.New(strokes, m.Lines, scheduler.Options{Seed: t.seed, OldMS: m.OldMS})
	return nil
}

// measureSwitches counts in the lines how often a stroke follows one of another
// layer. What stands in few places keeps the share that was declared.
func measureSwitches(strokes []scheduler.Stroke, lines [][]int) {
	const least = 4 // places
	places, switched := make([]float64, len(strokes)), make([]float64, len(strokes))
	for _, line := range lines {
		for k := 1; k < len(line); k++ {
			places[line[k]]++
			if strokes[line[k]].Layer != strokes[line[k-1]].Layer {
				switched[line[k]]++
			}
		}
	}
	for id, n := range places {
		if n >= least {
			strokes[id].Switch = switched[id] / n
		}
	}
}

func (t *trainer) ask(m message) any {
	now, left := clock(m.Now), span(m.LeftS)
	if m.First {
		t.scheduler.Begin(now, left)
		t.lastWrong = false
	}
	if n := len(t.days); n == 0 || t.days[n-1] != m.Day {
		t.days = append(t.days, m.Day)
	}
	e, ok := t.scheduler.Next(now, left)
	if !ok {
		return reply{"end"}
	}
	return exercise{"exercise", e.Items, string(e.Block)}
}

func (t *trainer) result(keys []key) error {
	for _, k := range keys {
		if k.ID < 0 || k.ID >= len(t.strokes) {
			return fmt.Errorf("no item %d", k.ID)
		}
		try := scheduler.Try{
			ID: k.ID, Prev: k.Prev, At: clock(k.Now), MS: k.MS, Wrong: !k.OK, Pressed: k.Pressed,
			First: k.Prev < 0, AfterSlip: t.lastWrong,
		}
		if k.Prev >= 0 && k.Prev < len(t.strokes) {
			a, b := &t.strokes[k.Prev], &t.strokes[k.ID]
			try.Switch = a.Layer != b.Layer || a.Board != b.Board
			try.SameFinger = !try.Switch && k.Prev != k.ID && a.Hand == b.Hand && a.Finger == b.Finger
		}
		t.lastWrong = !k.OK
		t.scheduler.Observe(try)
	}
	return nil
}

func (t *trainer) predict(m message) (any, error) {
	p := prediction{Type: "prediction", MS: make([]float64, len(m.IDs)), PErr: make([]float64, len(m.IDs))}
	for n, id := range m.IDs {
		if id < 0 || id >= len(t.strokes) {
			return nil, fmt.Errorf("no item %d", id)
		}
		l := t.scheduler.Level(id, clock(m.At))
		p.MS[n], p.PErr[n] = l.MS, l.Err
	}
	return p, nil
}

// forecast tells in days what the scheduler forecasts in practised sessions. As
// long as nothing can be said, it is the range that holds everything: from day
// 0 to never. (A skip would end the questions.)
func (t *trainer) forecast(m message) any {
	o := scheduler.Forecast(t.scheduler.Course(0), t.oldMS, m.TargetMS)
	if !o.Known {
		return forecast{Type: "forecast", Lo: new(float64)}
	}
	return forecast{Type: "forecast", Lo: t.day(o.Lo), Median: t.day(o.Median), Hi: t.day(o.Hi), Chance: &o.Chance}
}

// day is the day of a practised session: of those that were, or at the same
// pace from there on. nil is not within a year.
func (t *trainer) day(session float64) *float64 {
	n := len(t.days)
	if n == 0 || math.IsInf(session, 0) {
		return nil
	}
	d := session
	if last := float64(n - 1); session >= last {
		each := (float64(t.days[n-1]) + 1) / float64(n)
		d = float64(t.days[n-1]) + (session-last)*each
	} else {
		d = float64(t.days[int(math.Max(session, 0))])
	}
	if d > 365 {
		return nil
	}
	return &d
}

// clock returns the time so many seconds after day 0, which is put on some
// Monday. Times that no clock has become the nearest that it has.
func clock(s float64) time.Time {
	const most = 1e9
	if !(s > -most) {
		s = -most
	}
	return time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC).Add(span(math.Min(s, most)))
}

func span(s float64) time.Duration {
	const most = 9e9
	if !(s > -most) {
		s = -most
	}
	return time.Duration(math.Min(s, most) * float64(time.Second))
}
