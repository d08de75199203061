package process

import (
	"time"

	"heapside/calc/fault"
)

// ReadyShare is the share of today's volume that is likely left when the heap is
// ready: what it takes to lose the share of its degradable solids that counts as
// ready, and to settle. A heap that is kept longer shrinks a little further.
// Unlike Outlook it looks at no day ahead, and costs next to nothing. It fails
// with fault.Missing on a track that has not learned.
func (t *Track) ReadyShare() (Band, error) {
	if t.story == nil || t.now.members[0].S.Empty() {
		return Band{}, fault.New(fault.Missing, "Nothing is known to be in this heap; log what went in.")
	}
	return t.now.readyShare(), nil
}

// LearnedShare is ReadyShare as of when the track last learned, from a snapshot
// alone; false where none holds a heap yet. Whoever asks knows whether much has
// happened since.
func (t *Track) LearnedShare() (share Band, at time.Time, ok bool) {
	if t.base.members == nil || t.base.members[0].S.Empty() {
		return Band{}, time.Time{}, false
	}
	return t.base.readyShare(), moment(t.base.hour), true
}

func (b *stage) readyShare() Band {
	return b.band(func(m *member) float64 { return m.readyL() / m.S.VolumeL(&m.P) })
}

// readyL is the member's volume in litres when it meets the rule of readiness:
// its fast solids gone, its slow ones as far as the rule asks.
func (m *member) readyL() float64 {
	now := m.S
	now.Loose = 0
	if m.ready() {
		return now.VolumeL(&m.P)
	}
	low, high := 0.0, 1.0 // shares of the slow solids: ready at low
	for range 20 {
		mid := (low + high) / 2
		if s := now.rotted(mid); s.Loss() >= readyLoss && s.RespirationIndex(&m.P) < readyRespiration {
			low = mid
		} else {
			high = mid
		}
	}
	now = now.rotted(low)
	return now.VolumeL(&m.P)
}

// rotted is the state without its fast solids and with a share of its slow ones.
func (s State) rotted(slow float64) State {
	s.Core.Fast, s.Mantle.Fast = 0, 0
	s.Core.Slow *= slow
	s.Mantle.Slow *= slow
	return s
}
