package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"

	"github.com/natefinch/atomic"
	"github.com/spf13/cobra"

	"underlay/cmd/underlay/capture"
	"underlay/cmd/underlay/screen"
)

func newBoardCapture(env *Env) *cobra.Command {
	var anew bool
	c := &cobra.Command{
		Use:   "capture",
		Short: "Describe a board by pressing its keys",
		Long: `Describes a board without writing a file: choose a shape and press each lit key,
layer after layer. What arrives is written down; a key that sends nothing is told by
name after a moment. In the end the file is shown, checked and saved in the boards
directory. One that was interrupted goes on where it was.`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error { return env.captureBoard(anew) },
	}
	c.Flags().BoolVar(&anew, "anew", false, "forget a capture that was interrupted")
	return c
}

func (e *Env) captureBoard(anew bool) error {
	if !e.interactive() {
		return failure("board capture: a board is described by pressing its keys, and there is no terminal").hinted("write a board file instead, and check it with underlay board check")
	}
	cfg, err := e.configuration()
	if err != nil {
		return err
	}
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, syscall.SIGTERM, syscall.SIGHUP, os.Interrupt)
	defer signal.Stop(signals)
	host, err := e.capture(anew, screen.Options{Colours: cfg.Colours, Env: e.Getenv, Signals: signals, Now: e.Now})
	if err != nil && !errors.Is(err, screen.ErrStopped) {
		return err
	}
	switch {
	case host.saved != "":
		fmt.Fprintf(e.Stdout, "saved %s; to learn it, put %q first in boards of %s\n", safe(host.saved), host.name, safe(e.Dirs.ConfigFile()))
	case exists(host.state):
		fmt.Fprintln(e.Stdout, "left; underlay board capture goes on from here")
	}
	return nil
}

// capture runs a capture on the screen: the one that was interrupted, unless
// another one is to be begun.
func (e *Env) capture(anew bool, o screen.Options) (*captureHost, error) {
	host, err := e.captureHost()
	if err != nil {
		return nil, err
	}
	c, err := host.begun(anew)
	if err != nil {
		return nil, err
	}
	if err := screen.RunCapture(c, host, o); err != nil {
		return host, failure("board capture: %w", err)
	}
	return host, nil
}

// captureHost keeps a capture's state and its board on disk.
type captureHost struct {
	boards, state string // the boards directory, the file of the state
	saved, name   string // the board that was saved
}

func (e *Env) captureHost() (*captureHost, error) {
	boards, err := need(e.Dirs.Boards())
	if err != nil {
		return nil, err
	}
	state, err := need(e.Dirs.State)
	if err != nil {
		return nil, err
	}
	return &captureHost{boards: boards, state: filepath.Join(state, "capture.json")}, nil
}

// begun goes on with the capture that was interrupted, or begins one.
func (h *captureHost) begun(anew bool) (*capture.Capture, error) {
	kept, err := os.ReadFile(h.state)
	if anew || errors.Is(err, fs.ErrNotExist) {
		return capture.New(), nil
	}
	if err != nil {
		return nil, failure("%w", tried("read the capture that was begun", h.state, err))
	}
	c, err := capture.Resume(kept)
	if err != nil {
		return nil, failure("%w", tried("read", h.state, err)).hinted("underlay board capture --anew begins another one")
	}
	return c, nil
}

// begunCapture names the board whose capture was interrupted; it is "" if there
// is none to go on with.
func (e *Env) begunCapture() string {
	host, err := e.captureHost()
	if err != nil || !exists(host.state) {
		return ""
	}
	c, err := host.begun(false)
	if err != nil {
		return ""
	}
	return cmp.Or(c.Name, "your board")
}

// Keep stores the state, or removes it.
func (h *captureHost) Keep(state []byte) error {
	if state == nil {
		err := os.Remove(h.state)
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	}
	return writePrivately(h.state, state)
}

// Save writes the board file.
func (h *captureHost) Save(s capture.Save) error {
	file := filepath.Join(h.boards, s.Name+".toml")
	if !s.Over && exists(file) {
		return fs.ErrExist
	}
	if err := writePrivately(file, s.Source); err != nil {
		return err
	}
	h.saved, h.name = file, s.Name
	return nil
}

// writePrivately replaces a file that is nobody else's to read, its directory
// included.
func writePrivately(file string, content []byte) error {
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return err
	}
	if err := atomic.WriteFile(file, bytes.NewReader(content)); err != nil {
		return err
	}
	return os.Chmod(file, 0o600)
}
