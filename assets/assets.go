// Package assets embeds the boards, tables and layouts that come with the
// program. It holds data and no logic.
package assets

import (
	"embed"
	"io/fs"
)

//go:embed boards/*.toml oslayouts/*.toml tables/*.tsv motions.toml
var files embed.FS

// FS returns the embedded files: boards/*.toml, oslayouts/*.toml, motions.toml and
// tables/*.tsv.
func FS() fs.FS { return files }
