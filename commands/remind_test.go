package commands_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

// remind prepares the reminder of a place as if it came now, and shows it. The
// record settles what was open first.
func remind(t testing.TB, db *storage.DB, call commands.Call) commands.Reply {
	t.Helper()
	ctx := context.Background()
	jobs, err := assistantOver(db).Jobs(ctx, call.Place, call.Now)
	require.NoError(t, err)
	var found []duty.Found
	for _, j := range jobs {
		found = append(found, duty.Found{Heap: j.Heap.ID, Name: j.Heap.Name, Job: j.Job})
	}
	garden, err := db.Garden(ctx, call.Place)
	require.NoError(t, err)
	zone, err := time.LoadLocation(garden.Zone)
	require.NoError(t, err)
	plan, err := db.Plan(ctx, call.Place)
	require.NoError(t, err)
	day := duty.On(call.Now.In(zone))
	earlier, err := db.Items(ctx, call.Place, day.Add(-31))
	require.NoError(t, err)
	states := statesOf(t, db, call)
	var settled []duty.Item
	for i := range earlier {
		if now := duty.Settled(earlier[i], states[earlier[i].Heap]); earlier[i].Heap != 0 && now != earlier[i] {
			earlier[i] = now
			settled = append(settled, now)
		}
	}
	stale, err := db.Stale(ctx, 10)
	require.NoError(t, err)
	at := slices.IndexFunc(stale, func(s storage.Due) bool { return s.Place == call.Place })
	require.GreaterOrEqual(t, at, 0, "the place has a plan that changed")
	require.NoError(t, db.Arm(ctx, stale[at], duty.Occurrence{Day: day, At: call.Now}, settled...))
	due, err := db.Due(ctx, call.Now, 10)
	require.NoError(t, err)
	require.Len(t, due, 1)

	post := duty.Post{Place: call.Place, Kind: duty.Digest, Day: day, Due: call.Now}
	post.Items = duty.Choose(duty.Case{Plan: plan, Day: day, Found: found, Earlier: earlier})
	for i := range post.Items {
		post.Items[i].Said = call.Now
	}
	rota := plan.Rota
	entries, err := db.Latest(ctx, call.Place, 1000)
	require.NoError(t, err)
	if turn, ok := rota.Turn(day, duty.Tally(entries, call.Now.AddDate(0, 0, -duty.Window))); ok {
		post.To, rota = turn.Who, rota.Took(turn, day)
	}
	next, _ := plan.Next(call.Now, zone)
	_, err = db.Prepare(ctx, due[0], post, next, rota)
	require.NoError(t, err)
	claimed, err := db.Claim(ctx, "test", call.Now, time.Minute, 10)
	require.NoError(t, err)
	if len(claimed) == 0 {
		return commands.Reply{Headline: "(nothing is said)"}
	}
	require.NoError(t, db.Sent(ctx, claimed[0], "m"+day.String(), call.Now))
	return commands.PostReply(claimed[0], zone, garden.Language)
}

// statesOf are a place's heaps by their records.
func statesOf(t testing.TB, db *storage.DB, call commands.Call) map[heap.ID]heap.State {
	t.Helper()
	heaps, err := db.Heaps(context.Background(), call.Place)
	require.NoError(t, err)
	states := map[heap.ID]heap.State{}
	for _, h := range heaps {
		entries, err := db.Entries(context.Background(), call.Place, h.ID)
		require.NoError(t, err)
		states[h.ID] = heap.Read(h, entries, call.Now)
	}
	return states
}
