package reminders

import (
	"context"
	"log/slog"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
)

func TestRunTicksUntilItIsStopped(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, func(p *duty.Plan) { p.At, p.Quiet = 2, duty.Quiet{} })
	synctest.Test(t, func(t *testing.T) {
		// The bubble's clock begins at midnight of 1 January 2000.
		e := New(g.db, g, g.voice, Config{Now: time.Now, Log: slog.New(slog.DiscardHandler)})
		ctx, stop := context.WithCancel(t.Context())
		ended := make(chan error)
		go func() { ended <- e.Run(ctx) }()
		time.Sleep(2*time.Minute - time.Second)
		assert.Empty(t, g.voice.heard())
		time.Sleep(time.Second + tick)
		assert.Len(t, g.voice.heard(), 1)
		stop()
		require.NoError(t, <-ended)
	})
}

func TestRunEndsWhenTheTokenIsRefused(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, func(p *duty.Plan) { p.At, p.Quiet = 2, duty.Quiet{} })
	g.voice.answers = []error{refuseWith(TokenRefused, 0)}
	synctest.Test(t, func(t *testing.T) {
		e := New(g.db, g, g.voice, Config{Now: time.Now})
		assert.ErrorIs(t, e.Run(t.Context()), ErrToken)
		assert.Equal(t, 2, time.Now().UTC().Minute())
	})
}
