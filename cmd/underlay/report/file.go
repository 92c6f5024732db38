package report

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/natefinch/atomic"
)

// Write makes a file of what write writes. It is written aside, synced and
// renamed, so that the file is the old or the new one whatever happens. A link
// stays a link; what it leads to is written.
func Write(file string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if real, err := filepath.EvalSymlinks(file); err == nil {
		file = real
	}
	if info, err := os.Stat(file); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("it is no regular file")
	}
	if _, err := os.Stat(filepath.Dir(file)); err != nil {
		return err
	}
	if err := atomic.WriteFile(file, &b); err != nil {
		return errors.New(causeOf(err.Error()))
	}
	return nil
}

// causeOf is the last part of an error's text. What comes before it tells of
// the file aside, which is gone by then.
func causeOf(text string) string {
	parts := strings.Split(text, ": ")
	return parts[len(parts)-1]
}
