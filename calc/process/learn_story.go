package process

import (
	"fmt"
	"hash/fnv"
	"math"
	"strings"
	"time"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

// Table looks materials up by id.
type Table interface {
	ByID(id string) (feedstock.Feedstock, bool)
}

// Record is all that is known of one heap. Entries may come in any order and
// hold what was taken back. Weather may be nil; hours it does not know are those
// of Climate.
type Record struct {
	Heap    heap.Heap
	Entries []heap.Entry
	Table   Table
	Weather Weather
	Climate Climate
}

// leastDryKg is the dry mass below which nothing counts as put in, or left (own
// choice): less than a handful has no core.
const leastDryKg = 0.02

// story is a record put in order: what happened to the present content, hour by
// hour, up to now.
type story struct {
	record  Record
	entries []heap.Entry // standing, oldest first, since the heap was last emptied
	start   int64        // hour of the first addition
	now     int64
	first   attributes
	rain    gauge
}

// attributes are what a heap stands in before any entry changes it.
type attributes struct {
	container heap.Container
	sizeL     float64
	cover     string
	covered   bool
}

// tell orders a record. It fails with fault.Missing when nothing with any dry
// matter is on record as put in by now.
func tell(rec Record, now time.Time) (*story, error) {
	if f := rec.Heap.Finished; !f.IsZero() && f.Before(now) {
		now = f
	}
	s := &story{record: rec, now: hourOf(now)}
	s.entries = usable(heap.Read(rec.Heap, rec.Entries, now).Entries)
	s.first = firstAttributes(rec.Heap, s.entries)
	s.entries = sinceEmptied(s.entries)
	for _, e := range s.entries {
		if added, ok := e.Payload.(heap.Added); ok && s.material(added).DryKg >= leastDryKg {
			s.start = hourOf(e.At)
			s.rain = readGauge(s.entries, s.skyRain)
			return s, nil
		}
	}
	return nil, fault.New(fault.Missing,
		"Nothing is on record as put in; log what went in, for example: log add 2 buckets of grass clippings.")
}

func (s *story) skyRain(hour int64) float64 {
	if s.record.Weather == nil {
		return 0
	}
	h, _ := s.record.Weather.Hour(moment(hour))
	return within(h.RainMm, 0, math.MaxFloat64)
}

// usable leaves out what says nothing of how the heap does, what no heap can
// have, and what was logged twice: the same thing said again within the hour,
// except material and water, which do come in twos.
func usable(entries []heap.Entry) []heap.Entry {
	var out []heap.Entry
	for _, e := range entries {
		if _, err := heap.Encode(e.Payload); err == nil && telling(e.Payload) && !repeated(out, e) {
			out = append(out, e)
		}
	}
	return out
}

func telling(p heap.Payload) bool {
	switch p := p.(type) {
	case heap.Added, heap.Turned, heap.Watered, heap.Moved, heap.Covered,
		heap.Temp, heap.Feel, heap.Smell, heap.Height, heap.Rain:
		return true
	case heap.Changed:
		return p.Field == "container" || p.Field == "size" || p.Field == "cover"
	}
	return false
}

func repeated(before []heap.Entry, e heap.Entry) bool {
	switch e.Payload.(type) {
	case heap.Temp, heap.Feel, heap.Smell, heap.Turned, heap.Height, heap.Covered:
	default:
		return false
	}
	for i := len(before) - 1; i >= 0 && e.At.Sub(before[i].At) < time.Hour; i-- {
		if bare(before[i].Payload) == bare(e.Payload) {
			return true
		}
	}
	return false
}

// bare is a payload without the words it was said in.
func bare(p heap.Payload) heap.Payload {
	switch p := p.(type) {
	case heap.Temp:
		p.Said = ""
		return p
	case heap.Height:
		p.Said = ""
		return p
	case heap.Turned:
		return heap.Turned{}
	}
	return p
}

// firstAttributes undoes the changes that entries tell of.
func firstAttributes(h heap.Heap, entries []heap.Entry) attributes {
	for i := len(entries) - 1; i >= 0; i-- {
		if c, ok := entries[i].Payload.(heap.Changed); ok {
			if was, err := h.WithAttribute(c.Field, c.From); err == nil {
				h = was
			}
		}
	}
	return attributes{h.Container, h.SizeL, coverWord(h.Cover), covering(h.Cover)}
}

// covering reports whether a cover, as people name it, is one.
func covering(name string) bool {
	name = heap.NameKey(name)
	return name != "" && name != heap.NameKey("none")
}

// coverWord is the cover in the words of the model, lower case.
func coverWord(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// sinceEmptied is what was said since the whole content last moved on, and the
// covers, containers and rain before.
func sinceEmptied(entries []heap.Entry) []heap.Entry {
	for i := len(entries) - 1; i >= 0; i-- {
		if m, ok := entries[i].Payload.(heap.Moved); ok && !m.In && m.Share >= 1 {
			var kept []heap.Entry
			for _, e := range entries[:i] {
				switch e.Payload.(type) {
				case heap.Covered, heap.Changed, heap.Rain:
					kept = append(kept, e)
				}
			}
			return append(kept, entries[i+1:]...)
		}
	}
	return entries
}

// usualStock stands in for a material that is in no table: mixed garden waste
// (own choice).
var usualStock = feedstock.Feedstock{
	Carbon:     guess(45),
	CN:         guess(30),
	Moisture:   guess(55),
	Density:    guess(250),
	Volatile:   guess(88),
	Degradable: guess(0.58),
}

func guess(v float64) feedstock.Property {
	p := feedstock.Property{Source: "judgement"}
	p.Low, p.Typical, p.High = v, v, v
	return p
}

// material is what an addition brings; one said only by volume is weighed by
// its table.
func (s *story) material(added heap.Added) Material {
	f, ok := usualStock, false
	if s.record.Table != nil {
		f, ok = s.record.Table.ByID(added.Material)
	}
	if !ok {
		f = usualStock
	}
	if added.MassKg <= 0 {
		added.MassKg = added.VolumeL / 1000 * f.Density.Typical
	}
	return Of(added, f)
}

// digest stands for everything that has had a part in the members up to an
// hour, the weather apart: the entries before it with their materials, those
// rain readings after it that reach back, and what the heap first was.
func (s *story) digest(upTo int64) uint64 {
	d := fnv.New64a()
	put := func(text string) { _, _ = d.Write([]byte(text + "\x00")) }
	put(fmt.Sprint(s.first, s.record.Climate))
	last := int64(math.MinInt64)
	for _, e := range s.entries {
		at := hourOf(e.At)
		_, rain := e.Payload.(heap.Rain)
		if at < upTo || rain && max(last, at-gaugeBackH) < upTo {
			body, err := heap.Encode(e.Payload)
			if err != nil {
				continue
			}
			put(e.At.UTC().Format(time.RFC3339Nano))
			put(string(e.Payload.Kind()))
			put(string(body))
			if added, ok := e.Payload.(heap.Added); ok {
				put(fmt.Sprint(s.material(added)))
			}
		}
		if rain {
			last = at
		}
	}
	return d.Sum64()
}

// told counts the hours from one to another whose weather is known.
func (s *story) told(from, to int64) int64 {
	k := sky{weather: s.record.Weather}
	n := int64(0)
	for hour := from; hour < to; hour++ {
		if _, ok := k.told(hour); ok {
			n++
		}
	}
	return n
}
