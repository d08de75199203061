package weather

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBreaker(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	w.reply[OpenMeteo] = fail(429, "", "")
	ask := func() Result { return w.Weather(t.Context(), about(ghent, day, day)) }
	waits := []time.Duration{time.Minute, 2 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour, 4 * time.Hour, 6 * time.Hour, 6 * time.Hour}
	for i, wait := range waits {
		ask()
		require.Equal(t, i+1, w.count(OpenMeteo))
		w.advance(wait - time.Second)
		ask()
		require.Equal(t, i+1, w.count(OpenMeteo), "asked within its wait of %s", wait)
		w.advance(time.Second)
	}
	w.reply[OpenMeteo] = good
	assert.True(t, ask().Known)
	assert.Zero(t, w.sources[0].gate.failures)
}

func TestBrokenServiceIsTriedByOne(t *testing.T) {
	g := gate{outside: map[Place]time.Time{}}
	for range brokenAfter {
		g.failed(ghent, &Failure{Kind: Down}, noon)
	}
	later := noon.Add(brokenWait)
	_, open := g.open(ghent, later, 30*time.Second)
	assert.True(t, open)
	kind, open := g.open(portland, later, 30*time.Second)
	assert.False(t, open, "the first is still out")
	assert.Equal(t, Down, kind)
	_, open = g.open(portland, later.Add(30*time.Second), 30*time.Second)
	assert.True(t, open, "it never came back")
}

func TestLongWaitsDoNotOverflow(t *testing.T) {
	g := gate{outside: map[Place]time.Time{}}
	for range 500 {
		g.failed(ghent, &Failure{Kind: Down}, noon)
		require.True(t, g.shut.After(noon) && !g.shut.After(noon.Add(longestWait)), "%s", g.shut)
	}
}
