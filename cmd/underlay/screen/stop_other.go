//go:build !unix

package screen

// stopSelf does nothing: there is no job control here.
func stopSelf() {}
