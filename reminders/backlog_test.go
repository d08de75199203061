package reminders

import (
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
)

// All that came due while nothing ran is out within a minute, though the
// platform takes 100 ms for each message.
func TestAfterAStartAllThatIsDueIsOutWithinAMinute(t *testing.T) {
	const channels = 2000
	g := newGarden(t)
	for n := range channels {
		g.start(g.channel(n), "Bay")
		g.jobs[g.channel(n)] = []duty.Found{{Job: g.turn().Job}}
		g.plan(g.channel(n), func(p *duty.Plan) { p.At, p.Quiet = 1, duty.Quiet{} })
	}
	g.voice.delay = 100 * time.Millisecond
	var late []time.Duration
	synctest.Test(t, func(t *testing.T) {
		// The bubble's clock begins at midnight of 1 January 2000.
		g.voice.took = func(p duty.Post) { late = append(late, time.Since(p.Due)) }
		e := New(g.db, g, g.voice, Config{Now: time.Now})
		e.foresee = atOnce
		require.NoError(t, e.Tick(t.Context()))
		time.Sleep(time.Minute) // all are due now
		require.NoError(t, e.Tick(t.Context()))
	})
	require.Len(t, late, channels)
	slices.Sort(late)
	assert.Less(t, late[channels-1], time.Minute)
	t.Logf("%d posts: half out after %v, 99 %% after %v, all after %v", channels, late[channels/2], late[channels*99/100], late[channels-1])
}
