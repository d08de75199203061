package reminders

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

func TestAReminderComesOnceAtItsHourToWhoseTurnItIs(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, rota(wren, odalys))
	g.at(noon)
	g.at(six.Add(-time.Second))
	assert.Empty(t, g.voice.said)
	for s := range 5 {
		g.at(six.Add(time.Duration(s) * tick))
	}
	require.Len(t, g.voice.said, 1)
	p := g.voice.said[0]
	assert.Equal(t, monday, p.Day)
	assert.Equal(t, six, p.Due)
	assert.Equal(t, wren, p.To)
	assert.Empty(t, p.Notes)
	require.Len(t, p.Items, 1)
	assert.Equal(t, "Turn it", p.Items[0].Title)
	assert.Equal(t, Stats{Armed: 1, Prepared: 1, Sent: 1}, g.engine.Stats())
	assert.Equal(t, six.Add(4*tick), g.engine.Passed())
	stopped, stop := context.WithCancel(t.Context())
	stop()
	g.set(six.Add(5 * tick))
	require.Error(t, g.engine.Tick(stopped))
	assert.Equal(t, six.Add(4*tick), g.engine.Passed(), "a pass that failed is none")

	g.at(six.AddDate(0, 0, 1))
	require.Len(t, g.voice.said, 2)
	assert.Equal(t, odalys, g.voice.said[1].To, "who was asked yesterday waits")
}

func TestNothingIsSaidWhenNothingNeedsDoing(t *testing.T) {
	g := newGarden(t)
	g.plan(bays, func(p *duty.Plan) { p.Weekly = duty.Week(time.Monday) })
	g.at(noon)
	for day := range 8 {
		g.at(six.AddDate(0, 0, day))
	}
	assert.Empty(t, g.voice.said)
	assert.Equal(t, 8, g.engine.Stats().Quiet)
}

func TestWhatIsLoggedClosesTheItemWhereItStands(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays)
	g.at(noon)
	g.at(six)
	entries, err := g.db.Append(t.Context(), bays, heap.Entry{Heap: g.bay.ID, At: six.Add(time.Hour), Logged: six.Add(time.Hour), By: odalys, Payload: heap.Turned{}})
	require.NoError(t, err)
	g.at(six.Add(time.Hour + tick))
	shown := g.voice.shown["m1"].Items[0]
	assert.Equal(t, duty.Done, shown.State)
	assert.Equal(t, odalys, shown.By)

	_, err = g.db.Void(t.Context(), bays, odalys, six.Add(2*time.Hour), entries[0].ID)
	require.NoError(t, err)
	g.at(six.Add(2*time.Hour + tick))
	assert.Equal(t, duty.Open, g.voice.shown["m1"].Items[0].State)
	assert.Equal(t, 2, g.engine.Stats().Edited)
	assert.Len(t, g.voice.said, 1)
}

func TestWhatWasPutOffComesOnItsDay(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, func(p *duty.Plan) { p.Days = duty.Week(time.Monday) })
	g.at(noon)
	g.at(six)
	_, _, err := g.db.Settle(t.Context(), bays, g.voice.said[0].Items[0].ID,
		duty.Item{State: duty.Later, By: wren, At: six.Add(time.Minute), Until: monday.Add(3)})
	require.NoError(t, err)
	for day := range 7 {
		g.at(six.AddDate(0, 0, day).Add(2 * time.Minute))
	}
	require.Len(t, g.voice.said, 2)
	assert.Equal(t, monday.Add(3), g.voice.said[1].Day, "a Thursday, though only Mondays were chosen")
}

func TestWhatWasMissedComesLateOrIsNamed(t *testing.T) {
	tests := []struct {
		name  string
		back  time.Duration // after six
		late  []string      // notes, when it still comes
		named []string      // notes of the next one
	}{
		{"a little", 10 * time.Minute, []string{}, nil},
		{"within the evening", 2 * time.Hour, []string{"This comes late: it was due Mon 4 May at 18:00."}, nil},
		{"into the quiet hours", 4 * time.Hour, nil, []string{"The reminder of Mon 4 May was not sent: " + notSent}},
		{"over the night", 16 * time.Hour, nil, []string{"The reminder of Mon 4 May was not sent: " + notSent}},
		{"for days", 71 * time.Hour, nil, []string{"3 reminders, Mon 4 May to Wed 6 May, were not sent: " + notSent}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			g := newGarden(t)
			g.jobs[bays] = []duty.Found{g.turn()}
			g.plan(bays)
			g.at(noon)
			g.at(six.Add(test.back))
			if test.late != nil {
				require.Len(t, g.voice.said, 1)
				assert.ElementsMatch(t, test.late, g.voice.said[0].Notes)
				return
			}
			assert.Empty(t, g.voice.said)
			for day := range 5 {
				if evening := six.AddDate(0, 0, day); evening.After(six.Add(test.back)) {
					g.at(evening)
				}
			}
			require.Greater(t, len(g.voice.said), 1)
			assert.Equal(t, test.named, g.voice.said[0].Notes)
			assert.Empty(t, g.voice.said[1].Notes, "it was named")
		})
	}
}

func TestLateMessagesWaitForTheEndOfTheQuietHours(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	late := func(p *duty.Plan) { p.At, p.Quiet = 22*60, duty.Quiet{From: 23 * 60, To: 7 * 60} }
	g.plan(bays, late)
	g.at(noon)
	g.at(noon.Add(12 * time.Hour))
	assert.Empty(t, g.voice.said)
	g.at(noon.Add(19*time.Hour - time.Second))
	assert.Empty(t, g.voice.said)
	g.at(noon.Add(19 * time.Hour))
	require.Len(t, g.voice.said, 1)
	assert.Equal(t, monday, g.voice.said[0].Day)
	assert.Equal(t, []string{"This comes late: it was due Mon 4 May at 22:00."}, g.voice.said[0].Notes)
}

func TestAMessageHeldBackIntoTheQuietHoursWaits(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, func(p *duty.Plan) { p.Quiet.From = 18*60 + 1 })
	g.voice.answers = []error{errors.New("no answer"), errors.New("no answer"), errors.New("no answer"), errors.New("no answer"), errors.New("no answer")}
	g.at(noon)
	for s := range 200 {
		g.at(six.Add(time.Duration(s) * time.Second))
	}
	assert.Empty(t, g.voice.said)
	assert.Equal(t, 5, g.voice.tries, "after 2, 7, 22 and 52 seconds, then it is quiet")
	g.at(noon.Add(20 * time.Hour))
	assert.Empty(t, g.voice.said, "14 hours late")
	g.at(six.AddDate(0, 0, 1))
	require.Len(t, g.voice.said, 1)
	assert.Equal(t, []string{"The reminder of Mon 4 May was not sent: " + notSent}, g.voice.said[0].Notes)
}

func TestWhatWasDoneMeanwhileIsNotPosted(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays)
	g.at(noon)
	g.engine.hook = func(step string) {
		if step == "prepared" {
			_, err := g.db.Append(t.Context(), bays, heap.Entry{Heap: g.bay.ID, At: six, Logged: six, By: odalys, Payload: heap.Turned{}})
			require.NoError(t, err)
			require.NoError(t, g.another("b", slog.New(slog.DiscardHandler)).armAll(t.Context()))
		}
	}
	g.at(six)
	assert.Empty(t, g.voice.said)
	assert.Equal(t, 1, g.engine.Stats().Dropped)
}

func TestNobodyWhoIsAwayIsAddressed(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, rota(wren))
	g.at(noon)
	g.engine.hook = func(step string) {
		if step == "prepared" {
			_, err := g.db.ChangePlan(t.Context(), bays, wren, noon, func(p *duty.Plan) error {
				p.Rota.Members[0].Away = []duty.Span{{From: monday}}
				return nil
			})
			require.NoError(t, err)
		}
	}
	g.at(six)
	require.Len(t, g.voice.said, 1)
	assert.Empty(t, g.voice.said[0].To)
}

func TestManyEnginesSayItOnce(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays)
	g.at(noon)
	g.set(six)
	var running sync.WaitGroup
	for _, owner := range []string{"a", "b", "c", "d"} {
		e := g.another(owner, slog.New(slog.DiscardHandler))
		running.Go(func() { assert.NoError(t, e.Tick(t.Context())) })
	}
	running.Wait()
	assert.Equal(t, 1, g.voice.tries)
}

func TestOnePlaceThatFailsHoldsUpNoOther(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays], g.jobs[bins] = []duty.Found{g.turn()}, []duty.Found{{Job: g.turn().Job}}
	g.plan(bays)
	g.plan(bins)
	var log bytes.Buffer
	failing := finderFunc(func(at heap.Place) ([]duty.Found, error) {
		if at == bays {
			panic("no")
		}
		return g.Jobs(t.Context(), at, six)
	})
	g.engine = New(g.db, failing, g.voice, Config{Now: g.clock, Log: logged(&log)})
	g.at(noon)
	g.at(six)
	g.at(six.Add(tick))
	require.Len(t, g.voice.said, 1)
	assert.Equal(t, bins, g.voice.said[0].Place)
	assert.Equal(t, 1, strings.Count(log.String(), "panic: no"), "it rests for a minute")
	g.engine.finder = g
	g.at(six.Add(restFor + tick))
	assert.Len(t, g.voice.said, 2)
}

type finderFunc func(at heap.Place) ([]duty.Found, error)

// Jobs implements Finder.
func (f finderFunc) Jobs(_ context.Context, at heap.Place, _ time.Time) ([]duty.Found, error) {
	return f(at)
}

func TestAnUnknownZoneIsUTCAndLoggedOnce(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	require.NoError(t, g.db.SaveGarden(t.Context(), heap.Garden{Place: bays, Zone: "Europe/Millrace"}, wren, noon))
	g.plan(bays)
	var log bytes.Buffer
	g.engine = g.another("a", logged(&log))
	g.at(noon)
	g.at(six)
	g.at(six.AddDate(0, 0, 1))
	require.Len(t, g.voice.said, 2)
	assert.Equal(t, six, g.voice.said[0].Due)
	assert.Equal(t, 1, strings.Count(log.String(), "taken as UTC"))
}

func TestPreviewWritesNothing(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, rota(wren))
	g.at(noon)
	for _, only := range []*heap.Place{nil, &bays} {
		posts, err := g.engine.Preview(t.Context(), six, only)
		require.NoError(t, err)
		require.Len(t, posts, 1)
		assert.Equal(t, wren, posts[0].To)
		assert.Equal(t, "Turn it", posts[0].Items[0].Title)
	}
	posts, err := g.engine.Preview(t.Context(), noon, nil)
	require.NoError(t, err)
	assert.Empty(t, posts)
	items, err := g.db.Items(t.Context(), bays, monday)
	require.NoError(t, err)
	assert.Empty(t, items)
}

func TestARecordThatFailsIsAnErrorOfThePass(t *testing.T) {
	g := newGarden(t)
	require.NoError(t, g.db.Close())
	assert.ErrorIs(t, g.engine.Tick(t.Context()), storage.ErrClosed)
}
