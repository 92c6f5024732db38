// Package screen is a room of the command.
package screen
