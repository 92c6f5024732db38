// Package aside replaces files whole: the new content is written aside, synced
// and renamed, so that the file is the old or the new one whatever happens.
package aside

import (
	"errors"
	"io"
	"strings"

	"github.com/natefinch/atomic"
)

// Write replaces a file by what content holds. The error is what the system
// says, without the name of the file aside, which is gone by then.
func Write(file string, content io.Reader) error {
	if err := atomic.WriteFile(file, content); err != nil {
		parts := strings.Split(err.Error(), ": ")
		return errors.New(parts[len(parts)-1])
	}
	return nil
}
