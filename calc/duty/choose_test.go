package duty

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/heap"
)

func found(id heap.ID, kind string, u advice.Urgency) Found {
	return Found{Heap: id, Name: "North Bay", Job: advice.Job{Kind: kind, Title: "Turn it", Urgency: u}}
}

func kinds(items []Item) []string {
	out := []string{}
	for _, i := range items {
		out = append(out, i.Kind)
	}
	return out
}

func TestChoose(t *testing.T) {
	today := Date{2026, 11, 26}
	turn, water, cool := found(1, advice.Turn, advice.Soon), found(1, advice.Water, advice.Today), found(1, advice.Cool, advice.Now)
	ago := func(f Found, days int, state State) Item { return Item{Found: f, Day: today.Add(-days), State: state} }
	later := func(f Found, until Date) Item {
		i := ago(f, 1, Later)
		i.Until = until
		return i
	}
	taught := func(ts ...Taught) Plan { return Plan{Taught: ts} }
	for _, tc := range []struct {
		name string
		c    Case
		want []string
	}{
		{"what was found", Case{Found: []Found{water, turn}}, []string{"water", "turn"}},
		{"nothing", Case{}, []string{}},
		{"advice to leave it alone is no reminder", Case{Found: []Found{found(1, advice.Leave, advice.WhenYouCan)}}, []string{}},
		{"three at most", Case{Found: []Found{water, turn, found(2, advice.Turn, advice.Soon), found(3, advice.Turn, advice.Soon)}}, []string{"water", "turn", "turn"}},
		{"a kind that is off", Case{Found: []Found{water, turn}, Plan: Plan{Off: []string{"turn"}}}, []string{"water"}},
		{"overheating cannot be off", Case{Found: []Found{cool}, Plan: Plan{Off: []string{"cool"}}}, []string{"cool"}},
		{"named yesterday, in the next days", Case{Found: []Found{turn}, Earlier: []Item{ago(turn, 1, Open)}}, []string{}},
		{"named two days ago, in the next days", Case{Found: []Found{turn}, Earlier: []Item{ago(turn, 2, Open)}}, []string{"turn"}},
		{"named yesterday, today", Case{Found: []Found{water}, Earlier: []Item{ago(water, 1, Open)}}, []string{"water"}},
		{"named today already", Case{Found: []Found{cool}, Earlier: []Item{ago(cool, 0, Open)}}, []string{}},
		{"the newest item counts", Case{Found: []Found{turn}, Earlier: []Item{ago(turn, 1, Open), ago(turn, 9, Open)}}, []string{}},
		{"another heap's item does not count", Case{Found: []Found{turn}, Earlier: []Item{ago(found(2, "turn", advice.Soon), 1, Open)}}, []string{"turn"}},
		{"put off until today", Case{Found: []Found{turn}, Earlier: []Item{later(turn, today)}}, []string{"turn"}},
		{"put off until tomorrow", Case{Found: []Found{water}, Earlier: []Item{later(water, today.Add(1))}}, []string{}},
		{"never of this heap", Case{Found: []Found{turn, found(2, "turn", advice.Soon)}, Plan: taught(Taught{Heap: 1, Kind: "turn", Never: true})}, []string{"turn"}},
		{"not before a day", Case{Found: []Found{turn}, Plan: taught(Taught{Heap: 1, Kind: "turn", Until: today.Add(1)})}, []string{}},
		{"its day has come", Case{Found: []Found{turn}, Plan: taught(Taught{Heap: 1, Kind: "turn", Until: today})}, []string{"turn"}},
		{"taught to wait longer", Case{Found: []Found{turn}, Plan: taught(Taught{Heap: 1, Kind: "turn", Every: 11}),
			LastDone: func(heap.ID, string) Date { return today.Add(-10) }}, []string{}},
		{"waited as long as taught", Case{Found: []Found{turn}, Plan: taught(Taught{Heap: 1, Kind: "turn", Every: 11}),
			LastDone: func(heap.ID, string) Date { return today.Add(-11) }}, []string{"turn"}},
		{"urgent in spite of what was taught", Case{Found: []Found{cool}, Plan: taught(Taught{Heap: 1, Kind: "cool", Never: true})}, []string{"cool"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			tc.c.Day = today
			items := Choose(tc.c)
			assert.Equal(t, tc.want, kinds(items))
			for _, i := range items {
				assert.Equal(t, Open, i.State)
				assert.Equal(t, today, i.Day)
			}
		})
	}
}

func TestPutOff(t *testing.T) {
	until := Date{2026, 11, 27}
	assert.Equal(t, []Date{until}, PutOff([]Item{{State: Open}, {State: Later, Until: until}, {State: Done}}))
}

func TestSettled(t *testing.T) {
	said := time.Date(2026, 11, 26, 18, 0, 0, 0, time.UTC)
	turned := func(id heap.EntryID, happened, logged time.Duration) heap.Entry {
		return heap.Entry{ID: id, Heap: 1, At: said.Add(happened), Logged: said.Add(logged), By: odalys, Payload: heap.Turned{}}
	}
	state := func(entries ...heap.Entry) heap.State { return heap.State{Entries: entries} }
	open := Item{Found: found(1, advice.Turn, advice.Soon), Said: said, State: Open}
	put := open
	put.State, put.Until = Later, Date{2026, 11, 27}
	done := open
	done.State, done.By, done.At, done.Entry = Done, odalys, said.Add(time.Hour), 5
	unlogged := done
	unlogged.Entry = 0

	for _, tc := range []struct {
		name  string
		item  Item
		state heap.State
		want  State
	}{
		{"nothing was logged", open, state(), Open},
		{"turned afterwards", open, state(turned(5, time.Hour, time.Hour)), Done},
		{"turned before, logged afterwards", open, state(turned(5, -time.Hour, time.Hour)), Done},
		{"turned long before", open, state(turned(5, -100*time.Hour, time.Hour)), Open},
		{"logged before", open, state(turned(5, -time.Hour, -time.Hour)), Open},
		{"watered is not turned", open, state(heap.Entry{ID: 5, At: said, Logged: said, Payload: heap.Watered{}}), Open},
		{"put off and then turned", put, state(turned(5, time.Hour, time.Hour)), Done},
		{"taken back", done, state(), Open},
		{"still standing", done, state(turned(5, time.Hour, time.Hour)), Done},
		{"done without an entry", unlogged, state(), Done},
		{"the heap is finished", open, heap.State{Heap: heap.Heap{Finished: said.Add(time.Hour)}}, Lapsed},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := Settled(tc.item, tc.state)
			require.Equal(t, tc.want, got.State)
			switch got.State {
			case Done:
				assert.Equal(t, odalys, got.By)
			case Open:
				assert.Zero(t, got.By)
				assert.Zero(t, got.Entry)
			}
		})
	}
}

func TestAirIsNotTheHeap(t *testing.T) {
	said := time.Date(2026, 11, 26, 18, 0, 0, 0, time.UTC)
	temp := func(spot string) heap.State {
		return heap.State{Entries: []heap.Entry{{ID: 1, At: said, Logged: said, Payload: heap.Temp{C: 20, Spot: spot}}}}
	}
	for _, tc := range []struct {
		kind, spot string
		want       State
	}{
		{advice.Reading, "middle", Done}, {advice.Reading, heap.SpotAir, Open},
		{advice.Air, heap.SpotAir, Done}, {advice.Air, "middle", Open},
	} {
		got := Settled(Item{Found: found(1, tc.kind, advice.Soon), Said: said, State: Open}, temp(tc.spot))
		assert.Equal(t, tc.want, got.State, "%s by a reading of %s", tc.kind, tc.spot)
	}
}
