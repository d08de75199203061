package reminders

import (
	"context"
	"log/slog"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// crashAt makes a pass with an engine that ends at a step, and puts another one
// over the record in its place.
func (g *garden) crashAt(step string, now time.Time) {
	p := &mortal{DB: g.db}
	e := New(p, g, lastWords{p, g.voice}, Config{Now: g.clock, Owner: "ends"})
	e.foresee = atOnce
	e.hook = func(s string) { p.dead = p.dead || s == step }
	g.set(now)
	_ = e.Tick(g.t.Context()) // all fails from that step on
	require.True(g.t, p.dead, "%q was not reached", step)
	g.engine = g.another("goes on", slog.New(slog.DiscardHandler))
}

// lastWords is the platform as a process reaches it until its end.
type lastWords struct {
	p     *mortal
	voice Voice
}

// Post implements Voice.
func (m lastWords) Post(ctx context.Context, p duty.Post, nonce string) (string, error) {
	if m.p.dead {
		return "", errDead
	}
	return m.voice.Post(ctx, p, nonce)
}

// Edit implements Voice.
func (m lastWords) Edit(ctx context.Context, p duty.Post) error {
	if m.p.dead {
		return errDead
	}
	return m.voice.Edit(ctx, p)
}

func TestWhereverAnEngineEndsItIsSaidOnceAndShown(t *testing.T) {
	for _, step := range []string{"armed", "composed", "prepared", "claimed", "before-post", "after-post", "sent", "before-edit", "after-edit"} {
		t.Run(step, func(t *testing.T) {
			g := newGarden(t)
			g.jobs[bays] = []duty.Found{g.turn()}
			g.plan(bays)
			edits := step == "before-edit" || step == "after-edit"
			switch {
			case step == "armed":
				g.crashAt(step, noon)
			case !edits:
				g.at(noon)
				g.crashAt(step, six)
			default:
				g.at(noon)
			}
			g.at(six)
			g.at(six.Add(lease))
			require.Len(t, g.voice.said, 1)
			assert.Equal(t, monday, g.voice.said[0].Day)

			_, err := g.db.Append(t.Context(), bays, heap.Entry{Heap: g.bay.ID, At: six, Logged: six.Add(2 * lease), By: odalys, Payload: heap.Turned{}})
			require.NoError(t, err)
			if edits {
				g.crashAt(step, six.Add(2*lease))
			}
			g.at(six.Add(2 * lease))
			g.at(six.Add(3 * lease))
			assert.Equal(t, duty.Done, g.voice.shown["m1"].Items[0].State)
			assert.Len(t, g.voice.said, 1)
		})
	}
}

// What is shown after a second attempt may be what the first one said.
func TestWhatChangedBetweenTwoAttemptsIsShown(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays)
	g.at(noon)
	g.crashAt("after-post", six)
	_, err := g.db.Append(t.Context(), bays, heap.Entry{Heap: g.bay.ID, At: six, Logged: six, By: odalys, Payload: heap.Turned{}})
	require.NoError(t, err)
	g.at(six.Add(lease))
	g.at(six.Add(lease + tick))
	require.Len(t, g.voice.said, 1)
	assert.Equal(t, duty.Done, g.voice.shown["m1"].Items[0].State)
}

func TestAPlanChangedJustBeforeTheEndHolds(t *testing.T) {
	tests := []struct {
		name    string
		at      duty.Clock
		changed time.Time // the engine ends then
		again   time.Time // and another begins
		said    int
	}{
		{"its hour came meanwhile", 17 * 60, six.Add(-2 * time.Hour), six.Add(-30 * time.Minute), 1},
		{"its hour was over", 15 * 60, six.Add(-2 * time.Hour), six.Add(-30 * time.Minute), 0},
		{"the old hour had come", 20 * 60, six.Add(time.Second), six.Add(3 * time.Hour), 1},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			g := newGarden(t)
			g.jobs[bays] = []duty.Found{g.turn()}
			g.plan(bays, func(p *duty.Plan) { p.Quiet = duty.Quiet{} })
			g.at(noon)
			g.plan(bays, func(p *duty.Plan) { p.Quiet, p.At, p.Changed = duty.Quiet{}, test.at, test.changed })
			g.engine = g.another("goes on", slog.New(slog.DiscardHandler))
			g.at(test.again)
			g.at(test.again.Add(tick))
			assert.Len(t, g.voice.said, test.said)
		})
	}
}
