package journal

import "errors"

// NewDisk returns the directory dir as a Store. Nothing is made before
// something is written; then directories have the mode 0700 and files 0600.
func NewDisk(dir string) Store { return nil }

// Machine returns the name of this machine, which names its file: it is made
// up at random at first use and kept in the directory state, which is not to
// be synchronised between machines.
func Machine(state string) (string, error) { return "", errors.ErrUnsupported }
