//go:build unix

package screen

import "syscall"

// stopSelf stops the program as job control does, with all of its group, and
// returns when it goes on.
func stopSelf() { _ = syscall.Kill(0, syscall.SIGTSTP) }
