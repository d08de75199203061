package commands_test

import (
	"context"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands"
)

// TestChannelsAreApart asks everything that reads, lists, completes or changes
// from three other places and finds nothing of the first one's there.
func TestChannelsAreApart(t *testing.T) {
	db := record(t)
	a := assistantOver(db)
	here := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	setUp := []string{
		`heap start Secret Bay`, `log temp 58`, `log note xyzzy`, `stock set 3 sacks of dry leaves`,
		`stock define plugh cn:30 moisture:50 density:200`, `garden measure our bucket holds 19 l`, `garden organiser Wren`,
		`duty when daily 17:59`, `duty join`, `log feel crumbles`, `duty kinds covering off`,
	}
	for _, line := range setUp {
		require.Nil(t, a.Line(context.Background(), here, line).Err, line)
	}
	require.Len(t, remind(t, db, here).Values, 2+1+3*2, "a reminder of two jobs, to Wren")
	require.Nil(t, a.Line(context.Background(), here, `duty unneeded 2 why:never`).Err)
	before := everything(a, here)

	for _, place := range []heap.Place{
		{Guild: millrace.Guild, Channel: "other"}, {Guild: "elsewhere", Channel: millrace.Channel}, {Guild: "elsewhere", Channel: "other"},
	} {
		there := here
		there.Place = place
		seen := everything(a, there)
		for _, secret := range []string{"Secret", "xyzzy", "plugh", "58 °C", "dry leaves:", "19 l", "Wren", "17:59", "not reminded of"} {
			require.NotContains(t, seen, secret, "seen from %v", place)
		}
		for _, line := range []string{
			`log temp 20 heap:"Secret Bay"`, `undo 2`, `undo`, `heap finish heap:"Secret Bay"`, `heap change heap:"Secret Bay" name:Mine`,
			`mix 1 bucket of plugh`, `mix 1 bucket of grass from:stock`, `log move to:"Secret Bay" heap:"Secret Bay"`,
			`duty done 1`, `duty later 1`, `duty unneeded 1`, `duty unneeded 1 why:never`, `duty unneeded 2 why:fine`, `duty forget everything`,
			`duty leave`, `duty leave Wren`, `duty swap Wren`, `duty swap off`, `duty away tomorrow`, `duty away off`, `duty order Wren`,
		} {
			require.NotNil(t, a.Line(context.Background(), there, line).Err, "%s from %v", line, place)
		}
		require.Empty(t, a.Complete(context.Background(), withPath(there, "log temp"), "heap", "sec"))
		require.Empty(t, a.Complete(context.Background(), withPath(there, "mix"), "what", "plug"))
		require.Empty(t, a.Complete(context.Background(), withPath(there, "duty swap"), "with", ""))
		require.Empty(t, a.Complete(context.Background(), withPath(there, "duty forget"), "what", ""))
	}
	require.Equal(t, before, everything(a, here), "nothing changed at home")
}

func withPath(call commands.Call, path string) commands.Call {
	call.Path = path
	return call
}

func everything(a *commands.Assistant, call commands.Call) string {
	var b strings.Builder
	for _, line := range []string{"heap list", "heap show", "next", "ready", "history", "history csv:yes", "history kind:changes", "stock list", "garden show", "duty show", "duty next", "duty kinds"} {
		r := a.Line(context.Background(), call, line)
		b.WriteString(show(r))
		for _, f := range r.Files {
			b.Write(f.Data)
		}
	}
	return b.String()
}

// TestManyAtOnce logs from many people in two channels at once and counts.
func TestManyAtOnce(t *testing.T) {
	a := assistant(t)
	places := []heap.Place{millrace, {Guild: millrace.Guild, Channel: "other"}}
	for _, p := range places {
		require.Nil(t, a.Line(context.Background(), commands.Call{Place: p, By: person("Wren"), Now: summer}, "heap start Bay").Err)
	}
	var wg sync.WaitGroup
	const each = 25
	for _, p := range places {
		for _, name := range []string{"Odalys", "Tobias", "Mirembe"} {
			wg.Go(func() {
				for range each {
					r := a.Line(context.Background(), commands.Call{Place: p, By: person(name), Now: summer}, "log temp 55")
					if r.Err != nil {
						t.Error(r.Err)
					}
				}
			})
		}
	}
	wg.Wait()
	for _, p := range places {
		r := a.Line(context.Background(), commands.Call{Place: p, By: person("Wren"), Now: summer}, "history")
		require.Equal(t, 1.0+3*each, r.Values["entries"].Value)
	}
}

func TestUndoIsYours(t *testing.T) {
	a := assistant(t)
	at := func(name string, organiser bool) commands.Call {
		return commands.Call{Place: millrace, By: person(name), Organiser: organiser, Now: summer}
	}
	ctx := context.Background()
	require.Nil(t, a.Line(ctx, at("Wren", false), "heap start Bay").Err)
	require.Nil(t, a.Line(ctx, at("Wren", false), "log add 2 buckets of grass, 1 bucket of leaves and 1 bucket of straw").Err)

	r := a.Line(ctx, at("Odalys", false), "undo 2")
	require.NotNil(t, r.Err, "another member may not")
	require.Equal(t, fault.NotAllowed, r.Err.Code)
	require.True(t, r.Private)

	r = a.Line(ctx, at("Wren", false), "undo")
	require.Nil(t, r.Err)
	require.Contains(t, r.Headline, "straw", "what was logged in one go is taken back in one go")
	require.Contains(t, r.Headline, "grass")
	require.NotNil(t, a.Line(ctx, at("Wren", false), "undo").Err, "nothing is left to take back")

	require.Nil(t, a.Line(ctx, at("Wren", false), "log temp 50").Err)
	require.Nil(t, a.Line(ctx, at("Odalys", true), "undo 8").Err, "an organiser may")
}
