package report

import (
	"fmt"
	"os"
	"os/signal"
	"syscall"
)

// uninterrupted lets a file be written to its end when the program is told to stop
// meanwhile, so that nothing is left aside. It says so then. A second signal does not wait.
func uninterrupted(write func() error) error {
	held := make(chan os.Signal, 1)
	signal.Notify(held, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer signal.Stop(held)
	told, done := make(chan os.Signal, 1), make(chan struct{})
	go func() {
		defer close(told)
		select {
		case s := <-held:
			signal.Stop(held)
			told <- s
		case <-done:
			select {
			case s := <-held:
				told <- s
			default:
			}
		}
	}()
	err := write()
	close(done)
	if s, interrupted := <-told; interrupted && err == nil {
		return fmt.Errorf("%s, but it was written to its end", s)
	}
	return err
}
