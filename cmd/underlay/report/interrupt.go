package report

import (
	"fmt"
	"os"
	"os/signal"
	"syscall"
)

// uninterrupted lets a file be written to its end when the program is told to stop
// meanwhile, so that nothing is left aside. It says so then. A second signal does not wait,
// and what is ignored, as below nohup, stays so.
func uninterrupted(write func() error) error {
	held := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			signal.Notify(held, s)
		}
	}
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
