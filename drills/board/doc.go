// Package board describes keyboards: keys, layers and what they mean, and
// every way to produce a symbol on them.
package board
