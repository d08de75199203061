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
const snapshotVersion = 5

const (
	snapshotHead   = 1 + 8 + 8 + 4
	snapshotMember = 4 * (Learned + stateValues + 1)
	snapshotMark   = 4 * (1 + 3)
	snapshotFull   = snapshotHead + Members*snapshotMember
	snapshotMost   = snapshotFull + mostMarks*snapshotMark + crc32.Size
)

// errSnapshot is why a snapshot was not taken.
var errSnapshot = errors.New("not a snapshot of this version")

// MarshalBinary is the track's base, at most 58 KB, members in single precision. They
// are kept in that precision by the track itself, so a track from a snapshot
// gives the very numbers of the one that made it. Of a heap too young to have a
// base there is only the head.
func (t *Track) MarshalBinary() ([]byte, error) {
	b := make([]byte, 0, snapshotMost)
	b = append(b, snapshotVersion)
	b = binary.LittleEndian.AppendUint64(b, uint64(t.base.hour))
	b = binary.LittleEndian.AppendUint64(b, t.base.digest)
	b = binary.LittleEndian.AppendUint32(b, uint32(t.base.told))
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
	for _, m := range t.base.past {
		b = binary.LittleEndian.AppendUint32(b, uint32(t.base.hour-hourOf(m.At)))
		b = appendSingle(appendSingle(appendSingle(b, m.Reading.Low), m.Reading.Mid), m.Reading.High)
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
	body, err := unsealed(data)
	if err != nil {
		return fmt.Errorf("read %d bytes: %w", len(data), err)
	}
	base := stage{
		hour:   int64(binary.LittleEndian.Uint64(body[1:])),
		digest: binary.LittleEndian.Uint64(body[9:]),
		told:   int64(binary.LittleEndian.Uint32(body[17:])),
	}
	if singles := reader(body[snapshotHead:]); len(singles) > 0 {
		base.members, base.weight = make([]member, Members), make([]float64, Members)
		for i := range base.members {
			singles.member(&base.members[i])
			base.weight[i] = singles.next()
		}
		for len(singles) > 0 {
			at := moment(base.hour - int64(singles.bits()))
			base.past = append(base.past, Mark{at, Band{singles.next(), singles.next(), singles.next()}})
		}
	}
	*t = Track{base: base}
	return nil
}

// unsealed is the body of a snapshot that has the right version, sum and size.
func unsealed(data []byte) ([]byte, error) {
	if len(data) < snapshotHead+crc32.Size || data[0] != snapshotVersion {
		return nil, errSnapshot
	}
	body, sum := data[:len(data)-crc32.Size], data[len(data)-crc32.Size:]
	if crc32.ChecksumIEEE(body) != binary.LittleEndian.Uint32(sum) {
		return nil, errSnapshot
	}
	marks := len(body) - snapshotFull
	if len(body) != snapshotHead && (marks < 0 || marks%snapshotMark != 0) {
		return nil, errSnapshot
	}
	return body, nil
}

// reader reads single-precision numbers off bytes that are long enough.
type reader []byte

func (r *reader) bits() uint32 {
	v := binary.LittleEndian.Uint32(*r)
	*r = (*r)[4:]
	return v
}

func (r *reader) next() float64 { return float64(math.Float32frombits(r.bits())) }

func (r *reader) member(m *member) {
	m.P = DefaultParams()
	var at [Learned]float64
	for i := range at {
		at[i] = r.next()
	}
	m.P.SetCoordinates(at)
	for _, v := range m.values() {
		*v = r.next()
	}
}
