package discord_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/fault"
)

// ear is told what became of interactions, in order.
type ear chan discord.Heard

func (e ear) listen(c *discord.Config) { c.Heard = func(h discord.Heard) { e <- h } }

// next is what the ear hears next, without its time, which must be one.
func (e ear) next(t *testing.T) discord.Heard {
	t.Helper()
	select {
	case h := <-e:
		assert.Positive(t, h.Took)
		h.Took = 0
		return h
	case <-time.After(60 * time.Second):
		require.Fail(t, "nothing was heard")
		return discord.Heard{}
	}
}

func TestHeard(t *testing.T) {
	t.Parallel()
	heard := make(ear, 100)
	s := play(t, func(c *discord.Config) { heard.listen(c); c.DeferAfter = time.Minute })
	temp := func(reading string) { s.Command(odalys, "log temp", map[string]string{"reading": reading}) }
	var mixed discordtest.Message
	for _, tc := range []struct {
		name string
		do   func()
		want discord.Heard
	}{
		{"a command that is answered", func() { mixed = s.Command(odalys, "mix", map[string]string{"what": "grass"}).Answer() },
			discord.Heard{Kind: discord.Typed, Path: "mix", Outcome: discord.Answered}},
		{"one that is refused", func() { temp("580") },
			discord.Heard{Kind: discord.Typed, Path: "log temp", Outcome: discord.Declined, Code: fault.OutOfRange}},
		{"a handler that panics", func() { s.Command(odalys, "log feel", map[string]string{"squeeze": "drips"}) },
			discord.Heard{Kind: discord.Typed, Path: "log feel", Outcome: discord.Failed}},
		{"a button", func() { s.Press(odalys, mixed, "Log it") },
			discord.Heard{Kind: discord.Pressed, Path: "log temp", Outcome: discord.Answered}},
		{"a button that begins with no command", func() { s.PressID(odalys, mixed, "1:North Bay 58") },
			discord.Heard{Kind: discord.Pressed, Outcome: discord.Answered}},
		{"a button of another age", func() { s.PressID(odalys, mixed, "log temp 58") },
			discord.Heard{Kind: discord.Pressed, Outcome: discord.Declined, Code: fault.Unknown}},
		{"suggestions", func() { s.Complete(odalys, "log temp", nil, "heap", "nor") },
			discord.Heard{Kind: discord.Suggested, Path: "log temp", Outcome: discord.Answered}},
		{"an answer that is not taken", func() { s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 400, Code: 50035}); temp("58") },
			discord.Heard{Kind: discord.Typed, Path: "log temp", Outcome: discord.Unsent}},
		{"an answer that is too late for the platform", func() { s.Fail(discordtest.AtCallback, discordtest.Fault{Status: 404, Code: 10062}); temp("58") },
			discord.Heard{Kind: discord.Typed, Path: "log temp", Outcome: discord.Late}},
	} {
		tc.do()
		assert.Equal(t, tc.want, heard.next(t), tc.name)
	}
}

func TestHeardLate(t *testing.T) {
	t.Parallel()
	heard := make(ear, 100)
	s := play(t, func(c *discord.Config) {
		heard.listen(c)
		c.DeferAfter, c.AnswerIn, c.AtOnce = time.Millisecond, 20*time.Millisecond, 1
	})
	s.ready(t)
	s.Command(odalys, "log turn", nil)
	turned := discord.Heard{Kind: discord.Typed, Path: "log turn"}
	turned.Outcome = discord.Late
	assert.Equal(t, turned, heard.next(t))
	s.Command(odalys, "log turn", nil) // the first still has the slot
	turned.Outcome = discord.Busy
	assert.Equal(t, turned, heard.next(t))
	close(s.garden.release)
}

func TestLink(t *testing.T) {
	t.Parallel()
	s := prepare(t, nil)
	assert.Equal(t, discord.Link{Patience: 3 * time.Minute}, s.adapter.Link())
	begun := time.Now()
	s.run(t).ready(t)
	first := s.adapter.Link()
	assert.True(t, first.Open)
	assert.WithinRange(t, first.Acked, begun, time.Now())
	assert.LessOrEqual(t, first.Silent, time.Since(begun))
	assert.Equal(t, []int{1, 0}, []int{first.Connects, first.Resumes})

	s.Command(odalys, "history", nil).Answer()
	dropped := time.Now()
	s.Drop()
	s.Await("a heartbeat after the drop", func(c discordtest.Counts) bool { return c.Resumed == 1 && c.Heartbeats == 2 })
	s.Command(odalys, "history", nil).Answer() // what was sent before it has arrived
	assert.Equal(t, 1, s.adapter.Link().Resumes)
	s.stop()
	require.NoError(t, s.end(t))
	last := s.adapter.Link()
	assert.False(t, last.Open)
	assert.Equal(t, 2, last.Connects)
	assert.True(t, last.Acked.After(dropped), "what was known stays known")
}
