// Package session is a room of the command.
package session
