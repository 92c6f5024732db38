package course

import (
	"encoding/binary"
	"encoding/json"
	"errors"
)

// derived is what the cache holds. Its form is three parts, each after its length as
// an unsigned varint: past as JSON, then skill and watch as they come, which may be long.
type derived struct {
	past  *past
	skill []byte
	watch []byte // what Config.Watch counted; empty without one
}

func (d derived) encode() ([]byte, error) {
	past, err := json.Marshal(d.past)
	if err != nil {
		return nil, err
	}
	var out []byte
	for _, part := range [][]byte{past, d.skill, d.watch} {
		out = append(binary.AppendUvarint(out, uint64(len(part))), part...)
	}
	return out, nil
}

func decodeDerived(data []byte) (derived, error) {
	var parts [3][]byte
	for i := range parts {
		n, size := binary.Uvarint(data)
		if size <= 0 || n > uint64(len(data)-size) {
			return derived{}, errors.New("course: what was derived is cut short")
		}
		parts[i], data = data[size:size+int(n)], data[size+int(n):]
	}
	d := derived{past: newPast(), skill: parts[1], watch: parts[2]}
	return d, json.Unmarshal(parts[0], d.past)
}
