package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
)

// Cache keeps one file of what was derived from a history, so that the next
// run reads only what is new. The file is a line as in a journal, whose JSON has
// key, position and the data's length, and the data after it, ended by their
// own checksum. It may be deleted at any time.
type Cache struct {
	Store Store
	Name  string
}

// cacheVersion is the version of the file's form.
const cacheVersion = 1

type cacheHead struct {
	Kind     string   `json:"kind"`
	Version  int      `json:"version"`
	Key      string   `json:"key"`
	Position Position `json:"position"`
	Length   int      `json:"length"` // of the data, in bytes
	Sum      uint32   `json:"sum"`    // their CRC-32C
}

// Load returns what was saved under key, and the position to go on from. It
// returns nil and the zero Position when there is nothing that fits: no file, a
// torn one, another version or key, or a history that is not the same up to there
// or has new drills from before. Then all is to be derived from the start.
func (c Cache) Load(key string, h *History) ([]byte, Position) {
	b, err := fs.ReadFile(c.Store.FS(), c.Name)
	if err != nil {
		return nil, Position{}
	}
	line, data, ok := bytes.Cut(b, []byte("\n"))
	if !ok {
		return nil, Position{}
	}
	text, err := content(b[:len(line)+1])
	var head cacheHead
	if err != nil || json.Unmarshal(text, &head) != nil {
		return nil, Position{}
	}
	if head.Version != cacheVersion || head.Key != key || head.Length != len(data) || head.Sum != checksum(data) || !h.follows(head.Position) {
		return nil, Position{}
	}
	head.Position.whole = true
	return data, head.Position
}

// Save keeps data, derived from all of the history up to at.
func (c Cache) Save(key string, at Position, data []byte) error {
	if !at.whole {
		return errors.New("save what was derived from the journal: it was not read to its end")
	}
	head, err := json.Marshal(cacheHead{"cache", cacheVersion, key, at, len(data), checksum(data)})
	if err != nil {
		return err
	}
	line := fmt.Appendf(nil, "%08x %s\n", checksum(head), head)
	return c.Store.Replace(c.Name, append(line, data...))
}
