// Package session is one sitting as a state machine: events go in through
// [Model.Update], effects come out as values, and [Model.View] says what there
// is to show. It knows no terminal, no clock and no file: times come with the
// events, and whoever drives it (the screen, --plain, the simulation) carries
// out the effects and reports back with another event.
//
// The sitting is at one place at a time: Today, a drill, a pause, Rest, the
// map and so on. Each place is a small type in a file of its own that takes
// keys and fills its part of the view.
package session
