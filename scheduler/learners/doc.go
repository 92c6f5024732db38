// Package learners simulates typists who learn, forget and slip, to try the
// scheduler on and to make demonstration histories.
package learners
