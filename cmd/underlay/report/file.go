package report

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"

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
	return atomic.WriteFile(file, &b)
}
