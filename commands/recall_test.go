package commands_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/commands"
)

// turnable is weather that a test changes under an assistant.
type turnable struct{ climate }

func (w *turnable) Sky(ctx context.Context, lat, lon float64, zone *time.Location, since, until time.Time) commands.Sky {
	return w.climate.Sky(ctx, lat, lon, zone, since, until)
}

// TestRecallingChangesNoAnswer asks one assistant again and again, and after
// everything that happens one that has nothing to recall.
func TestRecallingChangesNoAnswer(t *testing.T) {
	notUnderRace(t)
	db := record(t)
	sky := &turnable{climate{airC: 14}}
	a := assistantOver(db, commands.Under(sky))
	call := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	say := func(line string) {
		t.Helper()
		r := a.Line(context.Background(), call, line)
		require.Nil(t, r.Err, "%s: %+v", line, r.Err)
	}
	say("garden place 51.75, -1.26")
	say(`heap start Bay container:"pallet bay" size:"1 m3"`)
	say("log add 30 buckets of grass clippings and 30 buckets of dry leaves")
	for range 4 {
		call.Now = call.Now.Add(24 * time.Hour)
		say("log temp 58")
	}
	questions := []string{"ready", "trouble cold"}
	answers := func(a *commands.Assistant) []string {
		var all []string
		for _, q := range questions {
			all = append(all, show(a.Line(context.Background(), call, q)))
		}
		return all
	}
	last := answers(a)
	for _, step := range []struct {
		name    string
		happens func()
		same    bool // the answers stay what they were
	}{
		{"nothing", func() {}, true},
		{"a quarter of an hour passes", func() { call.Now = call.Now.Add(15 * time.Minute) }, false},
		{"a reading", func() { say("log temp 49") }, false},
		{"the reading is taken back", func() { say("undo") }, false},
		{"leaves are denser here", func() { say("stock weigh 1 bucket of dry leaves weighs 2 kg") }, false},
		{"the forecast turns", func() { sky.airC = 3 }, false},
		{"another depth", func() { questions = []string{"outlook", "outlook depth:10cm"} }, false},
		{"another zone", func() { say("garden zone Asia/Kathmandu") }, false},
	} {
		t.Run(step.name, func(t *testing.T) {
			step.happens()
			told := answers(assistantOver(db, commands.Under(sky)))
			assert.Equal(t, told, answers(a))
			if step.same {
				assert.Equal(t, last, told)
			} else if step.name != "a quarter of an hour passes" {
				assert.NotEqual(t, last, told, "the step tells nothing")
			}
			last = told
		})
	}
}
