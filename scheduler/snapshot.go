package scheduler

import (
	"bytes"
	"encoding/binary"
	"encoding/gob"
	"errors"
	"fmt"
	"hash/crc32"
	"hash/fnv"
	"math"
)

// A snapshot is a cache: 4 bytes of version, 8 of a hash of the strokes and the
// options that the model depends on, 4 of CRC-32 (Castagnoli) over the rest,
// all little-endian; the rest is the memory as gob writes it, which keeps
// floating-point numbers to the last bit.
const (
	snapshotVersion = 3
	snapshotHead    = 16
)

// Snapshot returns the skill model as bytes, for a cache. It holds what the
// tries have taught and nothing of the session under way.
func (s *Scheduler) Snapshot() []byte {
	var b bytes.Buffer
	if err := gob.NewEncoder(&b).Encode(&s.memory); err != nil {
		panic("scheduler: the memory is plain data: " + err.Error())
	}
	head := make([]byte, snapshotHead, snapshotHead+b.Len())
	binary.LittleEndian.PutUint32(head, snapshotVersion)
	binary.LittleEndian.PutUint64(head[4:], s.fingerprint())
	binary.LittleEndian.PutUint32(head[12:], sum(b.Bytes()))
	return append(head, b.Bytes()...)
}

// Restore puts back what Snapshot returned. It fails, and changes nothing, when
// the bytes are damaged, of another version, or belong to other strokes or
// options; replay the tries then.
func (s *Scheduler) Restore(b []byte) error {
	if len(b) < snapshotHead {
		return errors.New("scheduler: snapshot is too short")
	}
	if v := binary.LittleEndian.Uint32(b); v != snapshotVersion {
		return fmt.Errorf("scheduler: snapshot has version %d, not %d", v, snapshotVersion)
	}
	if binary.LittleEndian.Uint64(b[4:]) != s.fingerprint() {
		return errors.New("scheduler: snapshot belongs to other strokes")
	}
	if binary.LittleEndian.Uint32(b[12:]) != sum(b[snapshotHead:]) {
		return errors.New("scheduler: snapshot is damaged")
	}
	var m memory
	if err := gob.NewDecoder(bytes.NewReader(b[snapshotHead:])).Decode(&m); err != nil {
		return fmt.Errorf("scheduler: snapshot: %w", err)
	}
	if len(m.Items) != len(s.Items) || len(m.Speed.Own) != len(s.Speed.Own) || len(m.Slips.Own) != len(s.Slips.Own) {
		return errors.New("scheduler: snapshot belongs to other strokes")
	}
	m.Speed.prior, m.Slips.prior = s.Speed.prior, s.Slips.prior
	s.memory = m
	return nil
}

func sum(b []byte) uint32 { return crc32.Checksum(b, crc32.MakeTable(crc32.Castagnoli)) }

// fingerprint tells apart the strokes, and the options, that give the same
// tries another meaning.
func (s *Scheduler) fingerprint() uint64 {
	h := fnv.New64a()
	put := func(v uint64) { binary.Write(h, binary.LittleEndian, v) }
	put(math.Float64bits(s.opts.OldMS))
	for i := range s.strokes {
		st := &s.strokes[i]
		for _, n := range [...]int{st.Board, st.Layer, st.Hand, st.Finger, st.Row, st.Col, st.Other, st.Was} {
			put(uint64(n))
		}
		put(math.Float64bits(st.Freq))
		put(math.Float64bits(st.Switch))
		if st.Retired {
			put(1)
		} else {
			put(0)
		}
	}
	return h.Sum64()
}
