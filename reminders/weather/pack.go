package weather

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"time"
)

// A packed report is a version, the length of a JSON head, the head (the report
// without its hours), and the hours. Each hour is how many hours after the one
// before it begins, a byte that says which values are known, and the values. A
// season of reports unpacks in a small part of the time that JSON takes.
const packVersion = 1

const (
	observedBit  = 1 << 5 // of the byte; bits 0 to 4 are the values in the order of fields
	maxPacked    = 1 << 20
	maxHourApart = 24 * 366 * 300
	// step is how finely values are written as whole numbers; the few that are
	// finer are written as they are.
	step      = 1e4
	usualHour = 14 // bytes
	// asIs is the number that stands before such a value.
	asIs = 1
)

var errPacked = errors.New("not a packed weather report")

// pack is the report as bytes. Its hours begin on the hour.
func pack(r Report) ([]byte, error) {
	hours := r.Hours
	r.Hours = nil
	head, err := json.Marshal(r)
	if err != nil {
		return nil, fmt.Errorf("pack weather report: %w", err)
	}
	out := make([]byte, 0, len(head)+20*len(hours)+8)
	out = append(out, packVersion)
	out = binary.AppendUvarint(out, uint64(len(head)))
	out = append(out, head...)
	last := int64(0)
	for i := range hours {
		hour := hours[i].At.Unix() / 3600
		out = appendHour(binary.AppendVarint(out, hour-last), &hours[i])
		last = hour
	}
	return out, nil
}

func appendHour(out []byte, h *Hour) []byte {
	mask, at := byte(0), len(out)
	out = append(out, 0)
	for k, field := range h.fields() {
		if v := *field; v != nil {
			mask |= 1 << k
			out = appendValue(out, *v)
		}
	}
	if h.Observed {
		mask |= observedBit
	}
	out[at] = mask
	return out
}

func appendValue(out []byte, v float64) []byte {
	if n := math.Round(v * step); math.Abs(n) <= math.MaxInt32 && n/step == v {
		return binary.AppendVarint(out, int64(n)*2)
	}
	out = binary.AppendVarint(out, asIs)
	return binary.LittleEndian.AppendUint64(out, math.Float64bits(v))
}

// unpack reads what pack wrote.
func unpack(data []byte) (Report, error) {
	if len(data) == 0 || len(data) > maxPacked || data[0] != packVersion {
		return Report{}, errPacked
	}
	n, size := binary.Uvarint(data[1:])
	if size <= 0 || n > uint64(len(data)-1-size) {
		return Report{}, errPacked
	}
	head, rest := data[1+size:1+size+int(n)], data[1+size+int(n):]
	var r Report
	if err := json.Unmarshal(head, &r); err != nil {
		return Report{}, fmt.Errorf("%w: %w", errPacked, err)
	}
	r.Hours = nil
	if len(rest) > 0 {
		r.Hours = make([]Hour, 0, len(rest)/usualHour+1)
	}
	u := unpacker{data: rest}
	for hour := int64(0); len(u.data) > 0; {
		hour += u.varint(maxHourApart)
		r.Hours = append(r.Hours, u.hour(hour))
	}
	if u.broken {
		return Report{}, errPacked
	}
	return r, nil
}

// unpacker takes values from the front of data until it is used up or broken.
type unpacker struct {
	data   []byte
	values []float64 // a block to point into
	broken bool
}

func (u *unpacker) breakOff() { u.data, u.broken = nil, true }

// varint is the next whole number, of that size at most.
func (u *unpacker) varint(most int64) int64 {
	v, n := binary.Varint(u.data)
	if n <= 0 || v > most || v < -most {
		u.breakOff()
		return 0
	}
	u.data = u.data[n:]
	return v
}

func (u *unpacker) hour(hour int64) Hour {
	h := Hour{At: time.Unix(hour*3600, 0).UTC()}
	if len(u.data) == 0 {
		u.breakOff()
		return h
	}
	mask := u.data[0]
	u.data = u.data[1:]
	h.Observed = mask&observedBit != 0
	for k, field := range h.fields() {
		if mask&(1<<k) != 0 {
			*field = u.value()
		}
	}
	return h
}

func (u *unpacker) value() *float64 {
	n := u.varint(2 * math.MaxInt32)
	v := float64(n/2) / step
	if n == asIs {
		v = u.float()
	}
	if len(u.values) == cap(u.values) {
		u.values = make([]float64, 0, 512)
	}
	u.values = append(u.values, v)
	return &u.values[len(u.values)-1]
}

// float is the next eight bytes as a number; one that is not finite is damage.
func (u *unpacker) float() float64 {
	if len(u.data) < 8 {
		u.breakOff()
		return 0
	}
	v := math.Float64frombits(binary.LittleEndian.Uint64(u.data))
	u.data = u.data[8:]
	if math.IsNaN(v) || math.IsInf(v, 0) {
		u.breakOff()
	}
	return v
}
