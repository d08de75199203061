package duty

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

var (
	wren   = heap.Person{ID: "7", Name: "Wren"}
	odalys = heap.Person{ID: "8", Name: "Odalys"}
	tobias = heap.Person{ID: "9", Name: "Tobias"}
)

// three is a rota of people who joined long ago.
func three() Rota {
	joined := Date{2026, 1, 1}
	return Rota{Members: []Member{{Person: wren, Joined: joined}, {Person: odalys, Joined: joined}, {Person: tobias, Joined: joined}}}
}

func (r Rota) who(t *testing.T, day Date, done map[string]float64) string {
	t.Helper()
	turn, ok := r.Turn(day, done)
	require.True(t, ok)
	return turn.Who.Name
}

func TestTurn(t *testing.T) {
	day := Date{2026, 8, 10}
	away := func(r Rota, i int, from, to Date) Rota {
		r.Members[i].Away = []Span{{from, to}}
		return r
	}
	for _, tc := range []struct {
		name string
		rota Rota
		done map[string]float64
		want string
	}{
		{"the first where all did the same", three(), nil, "Wren"},
		{"whoever did the least", three(), map[string]float64{"7": 4, "8": 2, "9": 3}, "Odalys"},
		{"nobody who is away", away(three(), 0, Date{2026, 8, 3}, Date{2026, 8, 17}), nil, "Odalys"},
		{"away with the last day", away(three(), 0, Date{2026, 8, 3}, day), nil, "Odalys"},
		{"back the day after", away(three(), 0, Date{2026, 8, 3}, day.Add(-1)), nil, "Wren"},
		{"away without an end", away(three(), 0, Date{2026, 8, 3}, Date{}), nil, "Odalys"},
		{"days away are not held against them", away(three(), 0, day.Add(-60), day.Add(-1)), map[string]float64{"7": 1, "8": 2, "9": 2}, "Odalys"},
		{"a stand-in", Rota{three().Members, []StandIn{{For: wren, By: tobias}}}, nil, "Tobias"},
		{"a stand-in who is away does not count", away(Rota{three().Members, []StandIn{{For: wren, By: tobias}}}, 2, day, day), nil, "Wren"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			assert.Equal(t, tc.want, tc.rota.who(t, day, tc.done))
		})
	}
	everybody := three()
	for i := range everybody.Members {
		everybody.Members[i].Away = []Span{{From: day}}
	}
	_, ok := everybody.Turn(day, nil)
	assert.False(t, ok)
	_, ok = Rota{}.Turn(day, nil)
	assert.False(t, ok)
}

func TestTurnsGoRoundWhereNobodyAnswers(t *testing.T) {
	rota, day := three(), Date{2026, 8, 10}
	var asked []string
	for n := range 6 {
		turn, ok := rota.Turn(day.Add(n), nil)
		require.True(t, ok)
		asked = append(asked, turn.Who.Name)
		rota = rota.Took(turn, day.Add(n))
	}
	assert.Equal(t, []string{"Wren", "Odalys", "Tobias", "Wren", "Odalys", "Tobias"}, asked)
}

// TestTurnsAreFairOverTime: whoever is asked does it most times; two of three
// are away for a while. Work for each day there evens out.
func TestTurnsAreFairOverTime(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 4))
	rota, start := three(), Date{2026, 3, 1}
	rota.Members[1].Away = []Span{{Date{2026, 6, 1}, Date{2026, 6, 30}}}
	rota.Members[2].Joined = Date{2026, 5, 1}
	did := map[string][]Date{}
	for n := range 200 {
		day := start.Add(n)
		done := map[string]float64{}
		for id, days := range did {
			for _, d := range days {
				if day.Since(d) < Window {
					done[id]++
				}
			}
		}
		if day.Before(rota.Members[2].Joined) {
			done[tobias.ID] = 1000 // not there yet
		}
		turn, ok := rota.Turn(day, done)
		require.True(t, ok)
		rota = rota.Took(turn, day)
		if draw.Float64() < 0.8 {
			did[turn.Who.ID] = append(did[turn.Who.ID], day)
		}
	}
	last := func(id string) (n float64) {
		for _, d := range did[id] {
			if start.Add(200).Since(d) < Window {
				n++
			}
		}
		return n
	}
	each := (last("7") + last("8") + last("9")) / 3
	for _, id := range []string{"7", "8", "9"} {
		assert.InDelta(t, each, last(id), each/3, "person %s", id)
	}
}

func TestAStandInIsUsedUp(t *testing.T) {
	day := Date{2026, 8, 10}
	rota := three()
	rota.StandIns = []StandIn{{For: wren, By: tobias}, {For: tobias, By: wren}}
	turn, ok := rota.Turn(day, nil)
	require.True(t, ok)
	assert.Equal(t, Turn{Whose: wren, Who: tobias}, turn)
	after := rota.Took(turn, day)
	assert.Equal(t, []StandIn{{For: tobias, By: wren}}, after.StandIns)
	assert.Len(t, rota.StandIns, 2, "the rota it came from stays")
	assert.Zero(t, rota.Members[0].Asked)
}

func TestTally(t *testing.T) {
	day := time.Date(2026, 8, 10, 9, 0, 0, 0, time.UTC)
	entry := func(by heap.Person, id heap.ID, after time.Duration, p heap.Payload, voided heap.EntryID) heap.Entry {
		return heap.Entry{Heap: id, At: day.Add(after), By: by, Payload: p, VoidedBy: voided}
	}
	done := Tally([]heap.Entry{
		entry(wren, 1, 0, heap.Turned{}, 0),
		entry(wren, 1, time.Hour, heap.Turned{}, 0),      // the same work
		entry(wren, 2, time.Hour, heap.Turned{}, 0),      // another heap
		entry(wren, 1, -48*time.Hour, heap.Turned{}, 0),  // too long ago
		entry(odalys, 1, time.Hour, heap.Watered{}, 99),  // taken back
		entry(odalys, 1, time.Hour, heap.Temp{C: 40}, 0), // a look
		entry(odalys, 1, time.Hour, heap.Note{}, 0),      // no work
		entry(odalys, 1, 25*time.Hour, heap.Turned{}, 0), // the next day
		entry(tobias, 1, time.Hour, heap.Voided{Entry: 1}, 0),
	}, day.Add(-time.Hour))
	assert.Equal(t, 2.0, done["7"])
	assert.Equal(t, 1.25, done["8"])
	assert.Zero(t, done["9"])
}
