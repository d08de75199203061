package process

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"math"
)

// snapshotVersion changes with what a snapshot holds or how members are made:
// one of another version is no use and its heap is learned anew.
const snapshotVersion = 1

const (
	snapshotHead   = 1 + 8 + 8
	snapshotMember = 4 * (Learned + stateValues + 1)
	snapshotSize   = snapshotHead + Members*snapshotMember + crc32.Size
)

// errSnapshot is why a snapshot was not taken.
var errSnapshot = errors.New("not a snapshot of this version")

// MarshalBinary is the track's base: 44 KB, members in single precision. They
// are kept in that precision by the track itself, so a track from a snapshot
// gives the very numbers of the one that made it. Of a heap too young to have a
// base there is only the head.
func (t *Track) MarshalBinary() ([]byte, error) {
	b := make([]byte, 0, snapshotSize)
	b = append(b, snapshotVersion)
	b = binary.LittleEndian.AppendUint64(b, uint64(t.base.hour))
	b = binary.LittleEndian.AppendUint64(b, t.base.digest)
	if len(t.base.members) != Members {
		return sealed(b), nil
	}
	for i := range t.base.members {
		m := &t.base.members[i]
		for _, v := range m.P.Coordinates() {
			b = appendSingle(b, v)
		}
		for _, v := range m.values() {
			b = appendSingle(b, *v)
		}
		b = appendSingle(b, t.base.weight[i])
	}
	return sealed(b), nil
}

func sealed(b []byte) []byte {
	return binary.LittleEndian.AppendUint32(b, crc32.ChecksumIEEE(b))
}

func appendSingle(b []byte, v float64) []byte {
	return binary.LittleEndian.AppendUint32(b, math.Float32bits(float32(v)))
}

// UnmarshalBinary takes what MarshalBinary gave. Advance must follow before the
// track is asked anything. On an error, which means that the heap has to be
// learned anew, the track is as it was.
func (t *Track) UnmarshalBinary(data []byte) error {
	if len(data) != snapshotSize && len(data) != snapshotHead+crc32.Size || data[0] != snapshotVersion {
		return fmt.Errorf("read %d bytes: %w", len(data), errSnapshot)
	}
	body, sum := data[:len(data)-crc32.Size], data[len(data)-crc32.Size:]
	if crc32.ChecksumIEEE(body) != binary.LittleEndian.Uint32(sum) {
		return fmt.Errorf("damaged: %w", errSnapshot)
	}
	base := stage{
		hour:   int64(binary.LittleEndian.Uint64(data[1:])),
		digest: binary.LittleEndian.Uint64(data[9:]),
	}
	at := body[snapshotHead:]
	if len(at) > 0 {
		base.members, base.weight = make([]member, Members), make([]float64, Members)
	}
	single := func() float64 {
		v := math.Float32frombits(binary.LittleEndian.Uint32(at))
		at = at[4:]
		return float64(v)
	}
	for i := range base.members {
		m := &base.members[i]
		m.P = DefaultParams()
		var coordinates [Learned]float64
		for j := range coordinates {
			coordinates[j] = single()
		}
		m.P.SetCoordinates(coordinates)
		for _, v := range m.values() {
			*v = single()
		}
		base.weight[i] = single()
	}
	*t = Track{base: base}
	return nil
}
