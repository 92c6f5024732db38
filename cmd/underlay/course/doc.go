// Package course is a room of the command.
package course
