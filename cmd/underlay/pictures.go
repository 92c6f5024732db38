package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/report"
	"underlay/cmd/underlay/screen"
	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// newPictures makes the README's pictures. It is for whoever works on the
// program, and not listed.
func newPictures(env *Env) *cobra.Command {
	return &cobra.Command{
		Use:    "pictures DIR",
		Hidden: true,
		Short:  "Draw the main screens of an invented sitting as SVG",
		Long: `Draws the main screens as SVG files in DIR: the real screens, of a sitting of a
simulated typist with an invented history, at 80 by 24. The same program gives the
same pictures.`,
		Args: takes(1, 1),
		RunE: func(_ *cobra.Command, args []string) error { return env.pictures(args[0]) },
	}
}

// pictured is a sitting that is drawn.
type pictured struct {
	dir   string
	model *session.Model
	board *board.Board
	now   time.Time
	typed int
}

// invention is when the invented sitting takes place.
func invention() time.Time { return time.Date(2026, 3, 20, 18, 30, 0, 0, time.UTC) }

// pictures draws the screens of a sitting after some days, and of the page after more.
func (e *Env) pictures(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	if err := e.invented(10, func(p *practice) error {
		s := &pictured{dir: dir, model: p.sitting(nil, p.notice()), board: p.course.Boards()[0], now: invention()}
		return s.draw()
	}); err != nil {
		return err
	}
	return e.invented(18, func(p *practice) error {
		s, learned, err := p.env.standing("")
		if err != nil {
			return err
		}
		return report.File{Name: filepath.Join(dir, "page.svg"), Force: true}.Write(func(w io.Writer) error { return report.Excerpt(w, s, learned, "marks") })
	})
}

// invented lets a simulated typist practise for some days, and hands over the sitting that follows.
func (e *Env) invented(days int, use func(*practice) error) error {
	history, err := os.MkdirTemp("", "underlay-pictures-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(history)
	alone := *e
	alone.Now = invention
	alone.Dirs = e.Dirs.In(history)
	alone.Dirs.Config = history // nothing of the person's own is in the pictures
	boards := []byte("boards = [\"split-38\", \"ansi-61\"]\n")
	if err := os.WriteFile(alone.Dirs.ConfigFile(), boards, 0o600); err != nil {
		return err
	}
	if _, err := alone.simulate(simulation{days: days, seed: 3, into: history, typist: "gradual"}, wish{}); err != nil {
		return err
	}
	p, err := alone.practise(wish{})
	if err != nil {
		return err
	}
	return use(p)
}

// draw goes through a sitting and draws what is met on the way.
func (s *pictured) draw() error {
	if err := s.shot("today"); err != nil {
		return err
	}
	s.press("m")
	s.press(board.Space)
	if err := s.shot("map"); err != nil {
		return err
	}
	s.press(board.Escape)
	s.press(board.Enter)
	if !s.until(s.worthShowing) {
		return failure("no drill of the sitting is worth a picture")
	}
	target := s.model.View().Drill.Target.Symbol
	stroke, _ := s.board.Drilled(target)
	if wrong, ok := s.board.Gives(s.board.Layers()[0], stroke.Final().Position); ok {
		s.press(wrong)
	}
	if err := s.shot("drill"); err != nil {
		return err
	}
	if !s.until(func(v session.View) bool { return v.Rest != nil && !v.Rest.Between }) {
		return failure("the sitting does not come to its end")
	}
	return s.shot("rest")
}

// worthShowing tells whether a drill shows the underlay at its best: well into
// some code, with a stroke of another layer that is not known by heart.
func (s *pictured) worthShowing(v session.View) bool {
	d := v.Drill
	if d == nil || d.Over != nil || d.Board != s.board || d.Layer != "marks" || d.Target.Words == "" {
		return false
	}
	named := slices.ContainsFunc(d.Prompt, func(c session.Cell) bool { return c.Named })
	return !named && d.Cursor >= 8 && len(d.Prompt) > d.Cursor+8 && s.typed > 100
}

// until types, now and then wrong, until a view is as wanted.
func (s *pictured) until(wanted func(session.View) bool) bool {
	for range 10_000 {
		v := s.model.View()
		if wanted(v) {
			return true
		}
		switch {
		case v.Drill == nil || v.Drill.Over != nil:
			s.now = s.now.Add(2 * time.Second)
			s.send(session.Tick{At: s.now})
			s.press(board.Enter)
		case s.typed%29 == 28:
			s.slip(v.Drill)
		default:
			s.press(s.answer(v.Drill.Target.Symbol))
		}
		s.typed++
	}
	return false
}

// slip presses the key of a stroke without its hold, and mends that.
func (s *pictured) slip(d *session.DrillView) {
	stroke, _ := d.Board.Drilled(d.Target.Symbol)
	wrong, ok := d.Board.Gives(d.Board.Layers()[0], stroke.Final().Position)
	if !ok || wrong == d.Target.Symbol || !wrong.IsCharacter() {
		wrong = "z"
	}
	right := s.answer(d.Target.Symbol)
	before := len(d.Typed)
	s.press(wrong)
	if v := s.model.View(); v.Drill != nil && len(v.Drill.Typed) > before {
		s.press(board.Backspace)
	}
	s.press(right)
}

// answer is the symbol that has to arrive for a target.
func (s *pictured) answer(target board.Symbol) board.Symbol {
	if stroke, ok := s.board.Drilled(target); ok && target[0] == '<' && len(target) > 1 {
		answer, _ := s.board.Gives(s.board.Layers()[0], stroke.Final().Position)
		return answer
	}
	return target
}

// press presses a key after a time that differs a little from the last.
func (s *pictured) press(k board.Symbol) {
	s.now = s.now.Add(time.Duration(230+s.typed*37%90) * time.Millisecond)
	s.send(session.Key{Symbol: k, At: s.now})
}

// send gives the model an event; what it wants saved is thrown away.
func (s *pictured) send(e session.Event) {
	for _, effect := range s.model.Update(e) {
		if _, ok := effect.(session.Record); ok {
			s.send(session.Saved{At: s.now})
			return
		}
	}
}

// shot draws the present screen.
func (s *pictured) shot(name string) error {
	s.now = s.now.Add(session.Surprise)
	s.send(session.Tick{At: s.now})
	file := filepath.Join(s.dir, name+".svg")
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	title := fmt.Sprintf("underlay: %s, of an invented sitting", name)
	if err := screen.WriteSVG(f, s.model.View(), 80, 24, title); err != nil {
		f.Close()
		return tried("draw", file, err)
	}
	return f.Close()
}
