//go:build unix

package screen

import (
	"os"
	"os/signal"
	"syscall"
	"time"
)

// stopSelf stops the program as job control does, with all of its group, and
// returns when it goes on. The stop comes some time after the signal was sent,
// so what is waited for is that it goes on; in a group without a shell that
// could wake it the system does not stop it at all.
func stopSelf() {
	on := make(chan os.Signal, 1)
	signal.Notify(on, syscall.SIGCONT)
	defer signal.Stop(on)
	if err := syscall.Kill(0, syscall.SIGTSTP); err != nil {
		return
	}
	select {
	case <-on:
	case <-time.After(300 * time.Millisecond):
	}
}
