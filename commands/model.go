package commands

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"time"

	"heapside/calc/heap"
	"heapside/calc/process"
)

// model is what the model of one heap says, at one moment.
type model struct {
	*said
	record process.Record
	kept   []byte // what it learned before
	at     time.Time
	track  *process.Track // nil as long as all that is asked is recalled
}

// model brings the model of a heap to now, or recalls what it said. What it
// learned is kept.
func (d *desk) model(record process.Record) (*model, error) {
	h := record.Heap.ID
	kept, err := d.store.Track(d.ctx, d.call.Place, h)
	if err != nil {
		return nil, err
	}
	m := &model{record: record, kept: kept, at: d.call.Now}
	if m.said = d.recall.find(d.ground(record, kept)); m.said != nil {
		return m, nil
	}
	if err := m.advance(); err != nil {
		return nil, err
	}
	learned, err := m.track.MarshalBinary()
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(learned, kept) {
		if err := d.store.SaveTrack(d.ctx, d.call.Place, h, learned); err != nil {
			return nil, err
		}
	}
	m.said = &said{now: m.track.Now(process.Question{}), past: m.track.Past()}
	m.share, m.empty = m.track.ReadyShare()
	d.recall.keep(d.ground(record, learned), m.said)
	return m, nil
}

// advance goes on from what was learned before.
func (m *model) advance() error {
	track := new(process.Track)
	if m.kept != nil && track.UnmarshalBinary(m.kept) != nil {
		track = new(process.Track) // written by another version: learn again
	}
	m.track = track
	return track.Advance(m.record, m.at)
}

// brought is the track at now.
func (m *model) brought() (*process.Track, error) {
	if m.track == nil {
		if err := m.advance(); err != nil {
			return nil, err
		}
	}
	return m.track, nil
}

// outlook is what the model expects.
func (m *model) outlook(q process.Question) (process.Outlook, error) {
	if o, ok := m.said.outlook(q); ok {
		return o, nil
	}
	track, err := m.brought()
	if err != nil {
		return process.Outlook{}, err
	}
	o, err := track.Outlook(q)
	if err == nil {
		m.said.keep(q, o)
	}
	return o, err
}

// ground stands for everything that a model's answers rest on.
type ground [sha256.Size]byte

// Weather is looked at from before the first entry, since the first reading of
// a rain gauge reaches back a week, to as far ahead as a model ever looks.
const (
	groundBack  = 14 * 24 * time.Hour
	groundAhead = process.ReadyDays * 24 * time.Hour
)

// ground is the record, the hour and what was learned before. Entries never
// change, so their numbers stand for them.
func (d *desk) ground(record process.Record, kept []byte) ground {
	now, since := d.call.Now, record.Heap.Started
	b := fmt.Appendf(nil, "%#v %#v %d", record.Heap, record.Climate, now.Unix()/3600)
	b = appendFlag(b, record.Heap.Finished.Before(now))
	materials := map[string]bool{}
	for _, e := range record.Entries {
		b = binary.LittleEndian.AppendUint64(b, uint64(e.ID))
		b = binary.LittleEndian.AppendUint64(b, uint64(e.VoidedBy))
		b = appendFlag(b, e.At.After(now))
		if e.At.Before(since) {
			since = e.At
		}
		if added, ok := e.Payload.(heap.Added); ok && !materials[added.Material] {
			materials[added.Material] = true
			f, known := record.Table.ByID(added.Material)
			b = fmt.Appendf(b, "%t %#v", known, f)
		}
	}
	if record.Weather != nil {
		b = appendWeather(b, record.Weather, since.Add(-groundBack), now.Add(groundAhead))
	}
	return sha256.Sum256(append(b, kept...))
}

func appendWeather(b []byte, w process.Weather, from, to time.Time) []byte {
	for at := from.Truncate(time.Hour); at.Before(to); at = at.Add(time.Hour) {
		h, told := w.Hour(at)
		if !told {
			b = appendFlag(b, false)
			continue
		}
		b = appendFlag(b, true)
		for _, v := range [...]float64{h.AirC, h.RH, h.RainMm, h.ET0Mm, h.WindMS} {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
		}
	}
	return b
}

func appendFlag(b []byte, on bool) []byte {
	if on {
		return append(b, 1)
	}
	return append(b, 0)
}
