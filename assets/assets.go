// Package assets embeds the boards, tables and layouts that come with the
// program. It holds data and no logic.
package assets
