package reminders

import (
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

func refuseWith(why Refusal, after time.Duration) error {
	return &Refused{Why: why, After: after, Err: errors.New("said the platform")}
}

// ticks makes passes from one moment on, every so often.
func (g *garden) ticks(from time.Time, every time.Duration, n int) {
	for i := range n {
		g.at(from.Add(time.Duration(i) * every))
	}
}

func TestAnUnknownOutcomeIsTriedAgainWithTheSameNonce(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays)
	g.voice.answers = []error{errCut, errCut, errCut}
	g.at(noon)
	g.ticks(six, time.Second, 60)
	assert.Equal(t, 4, g.voice.tries)
	require.Len(t, g.voice.said, 1)
	assert.Equal(t, 3, g.engine.Stats().Retried)
	assert.Equal(t, 1, g.engine.Stats().Sent)
}

func TestRetriesAreFarApartInTheEndAndEnd(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays, func(p *duty.Plan) { p.Quiet = duty.Quiet{} })
	g.voice.answers = slices.Repeat([]error{errors.New("502")}, 1000)
	g.at(noon)
	g.ticks(six, 30*time.Second, 2*60*13)
	assert.InDelta(t, 77, g.voice.tries, 5, "seven within ten minutes, then every ten minutes for twelve hours")
	missed, err := g.db.Missed(t.Context(), bays)
	require.NoError(t, err)
	assert.Equal(t, []duty.Date{monday}, missed)
}

func TestARateLimitHoldsBackEverything(t *testing.T) {
	g := newGarden(t)
	g.engine.workers = 1
	g.jobs[bays], g.jobs[bins] = []duty.Found{g.turn()}, []duty.Found{{Job: g.turn().Job}}
	g.plan(bays)
	g.plan(bins)
	g.voice.answers = []error{refuseWith(RateLimited, 40*time.Second)}
	g.at(noon)
	g.ticks(six, tick, 20)
	assert.Equal(t, 1, g.voice.tries)
	g.at(six.Add(40 * time.Second))
	assert.Len(t, g.voice.said, 2)
}

func TestAChannelThatIsGoneIsLeftAlone(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays], g.jobs[bins] = []duty.Found{g.turn()}, []duty.Found{{Job: g.turn().Job}}
	g.plan(bins)
	g.at(noon)
	g.at(six)
	require.Len(t, g.voice.said, 1)
	g.jobs[bins] = nil
	g.plan(bays)
	g.at(six.Add(time.Hour))
	g.voice.answers = []error{refuseWith(ChannelGone, 0)}
	g.ticks(six.AddDate(0, 0, 1), tick, 2)
	g.ticks(six.AddDate(0, 0, 2), 12*time.Hour, 8)
	require.Len(t, g.voice.said, 2)
	assert.Equal(t, bins, g.voice.said[1].Place)
	assert.Equal(t, []string{noticeGone}, g.voice.said[1].Notes)
	standing, err := g.db.Standing(t.Context(), bays)
	require.NoError(t, err)
	assert.Equal(t, duty.Gone, standing.Trouble)

	_, err = g.db.Append(t.Context(), bays, heap.Entry{Heap: g.bay.ID, At: g.clock(), Logged: g.clock(), By: wren, Payload: heap.Note{Text: "back"}})
	require.NoError(t, err)
	g.ticks(six.AddDate(0, 0, 6), tick, 2)
	require.Len(t, g.voice.said, 3)
	assert.Equal(t, bays, g.voice.said[2].Place, "who writes there shows that it is there")
}

func TestWithoutAccessItIsTriedSeldomAndToldOnce(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays], g.jobs[bins] = []duty.Found{g.turn()}, []duty.Found{{Job: g.turn().Job}}
	g.plan(bins)
	g.at(noon)
	g.at(six)
	g.jobs[bins] = nil
	g.plan(bays, func(p *duty.Plan) { p.Quiet.From = 23 * 60 })
	g.at(six.Add(time.Hour))
	g.voice.answers = []error{refuseWith(NoAccess, 0), nil, refuseWith(NoAccess, 0), refuseWith(NoAccess, 0)}
	g.voice.tries = 0
	tuesday := six.AddDate(0, 0, 1)
	g.ticks(tuesday, time.Minute, 60*15)
	assert.Equal(t, 3, g.voice.tries, "the reminder, the notice, and once more before the quiet hours")
	assert.Equal(t, []string{noticeRefused}, g.voice.said[1].Notes)
	g.ticks(tuesday.AddDate(0, 0, 1), time.Minute, 60*5)
	require.Len(t, g.voice.said, 3)
	assert.Equal(t, bays, g.voice.said[2].Place)
	assert.Equal(t, []string{"The reminder of Tue 5 May was not sent: " + notSent}, g.voice.said[2].Notes)
	standing, err := g.db.Standing(t.Context(), bays)
	require.NoError(t, err)
	assert.Equal(t, duty.NoTrouble, standing.Trouble)
}

func TestOtherRefusals(t *testing.T) {
	tests := []struct {
		why   Refusal
		tries int      // over two evenings
		notes []string // of the second
		left  duty.Trouble
	}{
		{GuildGone, 1, nil, duty.Gone},
		{Malformed, 2, []string{"The reminder of Mon 4 May was not sent: " + notSent}, duty.NoTrouble},
		{Busy, 3, nil, duty.NoTrouble},
	}
	for _, test := range tests {
		t.Run(test.why.String(), func(t *testing.T) {
			g := newGarden(t)
			g.jobs[bays] = []duty.Found{g.turn()}
			g.plan(bays)
			g.voice.answers = []error{refuseWith(test.why, 0)}
			g.at(noon)
			g.ticks(six, 30*time.Second, 5)
			g.ticks(six.AddDate(0, 0, 1), 30*time.Second, 5)
			assert.Equal(t, test.tries, g.voice.tries)
			standing, err := g.db.Standing(t.Context(), bays)
			require.NoError(t, err)
			assert.Equal(t, test.left, standing.Trouble)
			if n := len(g.voice.said); n > 0 {
				assert.Equal(t, test.notes, g.voice.said[n-1].Notes)
			}
		})
	}
}

// A refusal is certain: what is sent later is sent anew, and only to a group
// that still wants it.
func TestNothingIsPostedOnceRemindersAreOff(t *testing.T) {
	for name, change := range map[string]func(*duty.Plan){
		"switched off": func(p *duty.Plan) { p.On = false },
		"paused":       func(p *duty.Plan) { p.Paused = monday.Add(1) },
	} {
		for _, first := range []error{refuseWith(Busy, 0), refuseWith(RateLimited, time.Minute), errors.New("502")} {
			t.Run(name+" after "+first.Error(), func(t *testing.T) {
				g := newGarden(t)
				g.jobs[bays] = []duty.Found{g.turn()}
				g.plan(bays)
				g.voice.answers = []error{first}
				g.at(noon)
				g.at(six)
				require.Equal(t, 1, g.voice.tries)
				g.plan(bays, change)
				g.ticks(six.Add(tick), time.Minute, 5)
				assert.Equal(t, 1, g.voice.tries)
				assert.Equal(t, 1, g.engine.Stats().Dropped)
				missed, err := g.db.Missed(t.Context(), bays)
				require.NoError(t, err)
				assert.Empty(t, missed, "nobody missed it")
			})
		}
	}
}

func TestATokenThatIsRefusedEndsAllSending(t *testing.T) {
	g := newGarden(t)
	g.jobs[bays] = []duty.Found{g.turn()}
	g.plan(bays)
	g.voice.answers = []error{refuseWith(TokenRefused, 0)}
	g.at(noon)
	g.set(six)
	for range 3 {
		require.ErrorIs(t, g.engine.Tick(t.Context()), ErrToken)
	}
	assert.Equal(t, 1, g.voice.tries)
	g.engine = g.another("b", g.engine.log)
	g.at(six.Add(tick))
	assert.Len(t, g.voice.said, 1, "a new token sends what is due")
}

func TestEditsThatFailAreTriedUntilThereIsNothingToEdit(t *testing.T) {
	for name, test := range map[string]struct {
		answer error
		tries  int // within three minutes, with the post
		shown  duty.State
	}{
		"unknown outcome": {errors.New("502"), 3, duty.Done},
		"rate limited":    {refuseWith(RateLimited, time.Minute), 3, duty.Done},
		"message gone":    {refuseWith(MessageGone, 0), 2, duty.Open},
		"channel gone":    {refuseWith(ChannelGone, 0), 2, duty.Open},
		"no access":       {refuseWith(NoAccess, 0), 2, duty.Open},
	} {
		t.Run(name, func(t *testing.T) {
			g := newGarden(t)
			g.jobs[bays] = []duty.Found{g.turn()}
			g.plan(bays)
			g.at(noon)
			g.at(six)
			g.voice.answers = []error{test.answer}
			_, _, err := g.db.Settle(t.Context(), bays, g.voice.said[0].Items[0].ID, duty.Item{State: duty.Done, By: wren, At: six.Add(time.Minute)})
			require.NoError(t, err)
			g.ticks(six.Add(time.Minute), tick, 90)
			assert.Equal(t, test.tries, g.voice.tries)
			assert.Equal(t, test.shown, g.voice.shown["m1"].Items[0].State)
		})
	}
}
