package journal

import (
	"bytes"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/gofrs/flock"
	"github.com/natefinch/atomic"
)

// This file is the only one that knows the file system.

type disk struct{ dir string }

// NewDisk returns the directory dir as a Store. It is made, with the
// directories above it, when something is written or locked; then directories
// have the mode 0700 and files 0600.
func NewDisk(dir string) Store { return disk{dir} }

func (d disk) FS() fs.FS { return os.DirFS(d.dir) }

func (d disk) OpenAppend(name string) (File, error) {
	if err := makeDir(d.dir); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(filepath.Join(d.dir, name), os.O_RDWR|os.O_APPEND|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	return diskFile{f}, nil
}

func (d disk) Replace(name string, data []byte) error {
	if err := makeDir(d.dir); err != nil {
		return err
	}
	if err := atomic.WriteFile(filepath.Join(d.dir, name), bytes.NewReader(data)); err != nil {
		return err
	}
	return d.SyncDir()
}

func (d disk) SyncDir() error { return syncDir(d.dir) }

func (d disk) Lock(name string) (func() error, error) {
	if err := makeDir(d.dir); err != nil {
		return nil, err
	}
	l := flock.New(filepath.Join(d.dir, name), flock.SetPermissions(0o600))
	got, err := l.TryLock()
	if err != nil {
		return nil, fmt.Errorf("lock the journal: %w", err)
	}
	if !got {
		return nil, ErrLocked
	}
	return l.Unlock, nil
}

type diskFile struct{ *os.File }

func (f diskFile) Size() (int64, error) {
	info, err := f.Stat()
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// Truncate goes by the name on Windows, where a file that is open for
// appending cannot be cut.
func (f diskFile) Truncate(size int64) error {
	if runtime.GOOS == "windows" {
		return os.Truncate(f.Name(), size)
	}
	return f.File.Truncate(size)
}

// makeDir makes dir and what is missing above it, each known to its parent
// after a crash.
func makeDir(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	parent := filepath.Dir(dir)
	if parent != dir {
		if err := makeDir(parent); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return syncDir(parent)
}

// syncDir syncs the names in dir. Windows cannot, and keeps them by itself.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}

// machineFile holds the machine's name, in the directory of its state.
const machineFile = "machine"

// Machine returns the name of this machine, which names its file: it is made
// up at random at first use and kept in the directory state, which is not to
// be synchronised between machines.
func Machine(state string) (string, error) {
	if name, err := KnownMachine(state); name != "" || err != nil {
		return name, err
	}
	path := filepath.Join(state, machineFile)
	lock := flock.New(path+".lock", flock.SetPermissions(0o600))
	if err := makeDir(state); err != nil {
		return "", err
	}
	if err := lock.Lock(); err != nil { // two first uses at once shall agree
		return "", fmt.Errorf("make up a name for this machine: %w", err)
	}
	defer lock.Unlock()
	if name, err := KnownMachine(state); name != "" || err != nil {
		return name, err
	}
	name := strings.ToLower(rand.Text())[:machineLen]
	return name, NewDisk(state).Replace(machineFile, []byte(name+"\n"))
}

// KnownMachine returns what Machine does, or "" where no name was made up yet.
func KnownMachine(state string) (string, error) {
	path := filepath.Join(state, machineFile)
	b, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	name := strings.TrimSpace(string(b))
	if !validMachine(name) {
		return "", fmt.Errorf("read this machine's name: %s holds %.40q; without the file a new name is made up", path, name)
	}
	return name, nil
}

const machineLen = 16

// validMachine says what may stand in a file name anywhere.
func validMachine(name string) bool {
	outside := func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') }
	return name != "" && len(name) <= 64 && strings.IndexFunc(name, outside) < 0
}
