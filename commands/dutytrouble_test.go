package commands_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/commands"
	"heapside/storage"
)

// TestDutyShowSaysWhatDoesNotGetThrough follows one reminder that a channel
// refuses, from the first try until it is given up, and the next that arrives.
func TestDutyShowSaysWhatDoesNotGetThrough(t *testing.T) {
	db := record(t)
	a := assistantOver(db)
	ctx, call := context.Background(), commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	shown := func() string {
		r := a.Line(ctx, call, "duty show")
		require.Nil(t, r.Err)
		return show(r)
	}
	ask := func(line string) {
		r := a.Line(ctx, call, line)
		require.Nil(t, r.Err, line)
	}
	ask("heap start North Bay aim:fast")
	assert.NotContains(t, shown(), "channel", "without reminders nothing is troubled")
	ask("duty when daily 18:00")
	assert.NotContains(t, shown(), "cannot be posted")

	call.Lacks = []string{"Send Messages", "Embed Links"}
	const lacks = "As it stands I may not post reminders in this channel: I lack Send Messages and Embed Links. In its settings, under Permissions, allow me that."
	assert.Contains(t, shown(), lacks)
	assert.Contains(t, show(a.Line(ctx, call, "duty when daily 18:00")), lacks, "said when it is set, before any fails")
	assert.NotContains(t, show(a.Line(ctx, call, "duty off")), "lack")
	assert.NotContains(t, shown(), "lack", "reminders are off")
	call.Lacks = nil
	ask("duty when daily 18:00")

	evening := time.Date(2026, 6, 15, 18, 0, 0, 0, time.UTC)
	call.Now = evening
	p := claimedAt(t, db, call)
	_, err := db.Trouble(ctx, millrace, duty.Refused, evening)
	require.NoError(t, err)
	require.NoError(t, db.Retry(ctx, p, evening.Add(3*time.Hour), "no access"))
	call.Now = evening.Add(90 * time.Minute)
	got := a.Line(ctx, call, "duty show")
	assert.Equal(t, "Reminders cannot be posted in this channel since today 18:00.", got.Headline)
	assert.Equal(t, "refused", got.Values["trouble"].Value)
	assert.Equal(t, "2026-06-15T18:00:00Z", got.Values["trouble_since"].Value)
	assert.Equal(t, "2026-06-15T18:00:00Z", got.Values["undelivered"].Value)
	for _, line := range []string{
		"under Permissions, allow me to view it, to send messages and to embed links",
		"The last reminder, due today 18:00, could not be delivered yet; the next try is today 21:00.",
		"Reminders come daily at 18:00",
	} {
		assert.Contains(t, show(got), line)
	}
	call.Now = evening.Add(4 * time.Hour)
	assert.Contains(t, shown(), "due today 18:00, could not be delivered yet; it is tried again.")

	call.Locale = "de"
	assert.Contains(t, shown(), "In diesem Kanal können seit heute 18:00 keine Erinnerungen gesendet werden.")
	call.Locale = ""

	tried, err := db.Claim(ctx, "test", call.Now, time.Minute, 10)
	require.NoError(t, err)
	require.Len(t, tried, 1)
	require.NoError(t, db.Drop(ctx, tried[0], true, "too late"))
	call.Now = evening.Add(20 * time.Hour)
	assert.Contains(t, shown(), "The last reminder, due yesterday 18:00, was not delivered.")

	call.Now = evening.Add(24 * time.Hour)
	require.NoError(t, db.Sent(ctx, claimedAt(t, db, call), "m", call.Now))
	said := shown()
	assert.NotContains(t, said, "cannot be posted", "a message came through")
	assert.NotContains(t, said, "not delivered")

	_, err = db.Trouble(ctx, millrace, duty.Gone, call.Now)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(shown(), "  Reminders have stopped since today 18:00: this channel could not be found then."))
	ask("log temp 50 heap:\"North Bay\"")
	assert.NotContains(t, shown(), "stopped", "what is logged here shows that the channel is there")
}

// claimedAt prepares the reminder of a place as if it came now, and claims it.
func claimedAt(t *testing.T, db *storage.DB, call commands.Call) duty.Post {
	t.Helper()
	ctx := context.Background()
	stale, err := db.Stale(ctx, 10)
	require.NoError(t, err)
	for _, s := range stale {
		require.NoError(t, db.Arm(ctx, s, duty.Occurrence{Day: duty.On(call.Now), At: call.Now}))
	}
	due, err := db.Due(ctx, call.Now, 10)
	require.NoError(t, err)
	require.Len(t, due, 1)
	plan, err := db.Plan(ctx, call.Place)
	require.NoError(t, err)
	first, err := db.Prepare(ctx, due[0], duty.Post{Week: []string{"Nothing happened."}}, duty.Occurrence{}, plan.Rota)
	require.NoError(t, err)
	require.True(t, first)
	claimed, err := db.Claim(ctx, "test", call.Now, time.Minute, 10)
	require.NoError(t, err)
	require.Len(t, claimed, 1)
	return claimed[0]
}
