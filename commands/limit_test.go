package commands_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/commands"
)

// TestFlood: however commands come (typed, picked, as a plain sentence, by a
// button) each counts once; who floods is told once, organiser or not, and
// nothing of the rest is carried out.
func TestFlood(t *testing.T) {
	a := assistant(t, commands.Limited())
	wren := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	require.Nil(t, a.Line(context.Background(), wren, "heap start North Bay").Err)
	for range 10 {
		require.Nil(t, a.Line(context.Background(), wren, "log temp 58").Err)
		require.Nil(t, a.Line(context.Background(), wren, "what is on hand?").Err)
	}
	list := withPath(wren, "heap list")
	for range 9 {
		require.Nil(t, a.Do(context.Background(), list).Err)
	}
	first, next := a.Line(context.Background(), wren, "log temp 59"), a.Do(context.Background(), list)
	for _, r := range []commands.Reply{first, next} {
		require.NotNil(t, r.Err)
		assert.Equal(t, fault.TooMany, r.Err.Code)
		assert.True(t, r.Private)
	}
	assert.False(t, first.Quiet)
	assert.Contains(t, first.Headline, "30 commands a minute")
	assert.True(t, next.Quiet)

	odalys := wren
	odalys.By = person("Odalys")
	said := show(a.Line(context.Background(), odalys, "history"))
	assert.Contains(t, said, "11 entries")
	assert.NotContains(t, said, "59")
	typing := withPath(wren, "mix")
	assert.NotEmpty(t, a.Complete(context.Background(), typing, "what", "gra"), "suggestions have a limit of their own")
	for range 300 {
		a.Complete(context.Background(), typing, "what", "gra")
	}
	assert.Empty(t, a.Complete(context.Background(), typing, "what", "gra"))
	wren.Now = wren.Now.Add(time.Minute)
	assert.Nil(t, a.Line(context.Background(), wren, "log temp 59").Err)
}

// TestAFloodIsToldInItsLanguage: the garden's once a minute, then the caller's,
// for which nothing is read.
func TestAFloodIsToldInItsLanguage(t *testing.T) {
	a := assistant(t, commands.Limited())
	wren := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer, Locale: "fr"}
	require.Nil(t, a.Line(context.Background(), wren, "garden language de").Err)
	for range 29 {
		a.Line(context.Background(), wren, "heap list")
	}
	first, next := a.Line(context.Background(), wren, "heap list"), a.Line(context.Background(), wren, "heap list")
	assert.Contains(t, first.Headline, "mehr als 30 Befehle in der Minute")
	assert.Equal(t, "Pas exécuté : trop de commandes en une minute.", next.Headline)
	assert.True(t, next.Quiet)
}
