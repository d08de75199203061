package commands_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands"
	"heapside/storage"
)

// turning, squeezing and cooling are jobs as a reminder carries them.
var (
	turning = duty.Found{Heap: 1, Name: "North Bay", Job: advice.Job{Kind: advice.Turn, Title: "Turn it", Done: "log turn", Confidence: "sure",
		Reason: "58 °C on Monday, 49 °C today: it is cooling.", Source: "Cornell; Rutgers", Urgency: advice.Today}}
	squeezing = duty.Found{Heap: 1, Name: "North Bay", Job: advice.Job{Kind: advice.Feel, Title: "Squeeze a handful from the middle", Confidence: "likely",
		Reason: "The last squeeze test was 9 days ago.", Source: "common practice, no source", Urgency: advice.WhenYouCan}}
	watering = duty.Found{Heap: 2, Name: "Old Bay", Job: advice.Job{Kind: advice.Water, Title: "Water it until a handful holds together", Done: "log water", Confidence: "likely",
		Reason: "A handful crumbled 6 hours ago.", Source: "Rutgers", Caution: "Dust from dry compost can carry spores (HSE).", Urgency: advice.Soon}}
	leaves = duty.Found{Job: advice.Job{Kind: "gather", Title: "Collect leaves before they are gone", Reason: "It is November.", Source: "common practice, no source"}}
)

// TestPostsAsTheyRead holds what posts look like, with all that a message shows.
func TestPostsAsTheyRead(t *testing.T) {
	zone, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	day := duty.Date{Year: 2026, Month: time.November, Day: 26}
	at := time.Date(2026, 11, 26, 18, 40, 0, 0, time.UTC)
	odalys := person("Odalys")
	item := func(id int64, f duty.Found, state duty.State) duty.Item {
		i := duty.Item{ID: id, Day: day, Found: f, State: state}
		if state != duty.Open && state != duty.Lapsed {
			i.By, i.At = person("Wren"), at
		}
		switch state {
		case duty.Later:
			i.Until = day.Add(1)
		case duty.Done:
			i.Entry = 31
		}
		return i
	}
	post := func(to heap.Person, items ...duty.Item) duty.Post {
		return duty.Post{Kind: duty.Digest, Day: day, To: to, Items: items}
	}
	dayAfter := item(1, turning, duty.Done)
	dayAfter.At = at.Add(20 * time.Hour)
	unlogged := item(1, leaves, duty.Done)
	unlogged.Entry = 0
	week := post(heap.Person{})
	week.Week = []string{"Turned: North Bay twice.", "Added: 9 buckets of grass clippings."}
	late := post(odalys, item(1, turning, duty.Open))
	late.Notes, late.Week = []string{"This comes late: it was due Thu 26 Nov at 18:00."}, week.Week
	var out strings.Builder
	for _, p := range []struct {
		name string
		duty.Post
	}{
		{"one job, to somebody", post(odalys, item(1, turning, duty.Open))},
		{"one job, to nobody by name", post(heap.Person{}, item(1, squeezing, duty.Open))},
		{"three jobs, two of one heap", post(odalys, item(1, turning, duty.Open), item(2, watering, duty.Open), item(3, squeezing, duty.Open))},
		{"one done, one put off, one open", post(odalys, item(1, turning, duty.Done), item(2, watering, duty.Later), item(3, squeezing, duty.Open))},
		{"all closed", post(odalys, item(1, turning, duty.Done), item(2, watering, duty.Unneeded), item(3, squeezing, duty.Lapsed))},
		{"the only one done", post(odalys, item(1, turning, duty.Done))},
		{"done the day after", post(odalys, dayAfter)},
		{"the only one put off", post(odalys, item(1, turning, duty.Later))},
		{"a job of the garden", post(heap.Person{}, item(1, leaves, duty.Open), item(2, watering, duty.Open))},
		{"a job of the garden, done", post(heap.Person{}, unlogged)},
		{"late, with the week", late},
		{"only the week", week},
		{"a notice", duty.Post{Kind: duty.Notice, Day: day, Notes: []string{"Another channel here had reminders and is gone, so they have stopped."}}},
	} {
		r := commands.PostReply(p.Post, zone, "")
		fmt.Fprintf(&out, "## %s\n%s", p.name, show(r))
		rows := 0
		for _, a := range r.Actions {
			if a.Row {
				rows++
			}
		}
		fmt.Fprintf(&out, "    to %q, rests on %q, %d rows of buttons\n", r.To.Name, strings.Join(r.Basis, "; "), rows)
		assertFits(t, r)
	}
	const golden = "testdata/posts.golden"
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(out.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), out.String())
}

// assertFits holds a reply against the limits of buttons: 80 characters, and
// 100 for the line with what an adapter puts before it.
func assertFits(t *testing.T, r commands.Reply) {
	t.Helper()
	lines := map[string]bool{}
	for i, a := range r.Actions {
		assert.LessOrEqual(t, utf8.RuneCountInString(a.Label), 80)
		assert.LessOrEqual(t, len(a.Line), 97)
		assert.False(t, lines[a.Line], "%s twice", a.Line)
		assert.True(t, i > 0 || a.Row, "the first begins a row")
		lines[a.Line] = true
	}
}

func TestAPostWithLongNamesFits(t *testing.T) {
	far := turning
	far.Name = strings.Repeat("Bäy ", 15)
	p := duty.Post{Kind: duty.Digest, To: person(strings.Repeat("W", 60))}
	for n := range duty.Most {
		p.Items = append(p.Items, duty.Item{ID: 1<<62 + int64(n), Found: far, State: duty.Open})
	}
	assertFits(t, commands.PostReply(p, time.UTC, ""))
	p.Items[0].State, p.Items[0].Entry = duty.Done, 1<<62
	assertFits(t, commands.PostReply(p, time.UTC, ""))
}

// reminded is a garden that was reminded of turning North Bay, item 1, and of
// squeezing a handful of it, item 2.
func reminded(t *testing.T) (*commands.Assistant, *storage.DB, func(who string, later time.Duration, line string) commands.Reply) {
	t.Helper()
	db := record(t)
	a := assistantOver(db)
	say := func(who string, later time.Duration, line string) commands.Reply {
		return a.Line(context.Background(), commands.Call{Place: millrace, By: person(who), Now: summer.Add(later)}, line)
	}
	for _, line := range []string{"heap start North Bay", "duty when daily 18:00", "log add 20 buckets of grass clippings and 20 buckets of dry leaves", "log temp 66"} {
		require.Nil(t, say("Wren", 0, line).Err, line)
	}
	r := remind(t, db, commands.Call{Place: millrace, Now: summer.Add(time.Hour)})
	require.Equal(t, advice.Turn, r.Values["job.1.kind"].Value)
	require.Equal(t, advice.Feel, r.Values["job.2.kind"].Value)
	return a, db, say
}

func TestManyPressAtOnceAndOneIsLogged(t *testing.T) {
	_, db, say := reminded(t)
	var wg sync.WaitGroup
	var mu sync.Mutex
	done, told := 0, 0
	for n := range 12 {
		wg.Go(func() {
			r := say(fmt.Sprint("Member", n), 2*time.Hour, "duty done 1")
			mu.Lock()
			defer mu.Unlock()
			switch {
			case r.Err == nil && r.Replace:
				done++
			case r.Err != nil && r.Err.Code == fault.Taken && r.Private && strings.Contains(r.Headline, "Member"):
				told++
			default:
				t.Errorf("%+v", r)
			}
		})
	}
	wg.Wait()
	assert.Equal(t, 1, done)
	assert.Equal(t, 11, told)
	assert.Equal(t, 1, count(t, db, heap.KindTurned))
}

func count(t *testing.T, db *storage.DB, kind heap.Kind) int {
	t.Helper()
	n := 0
	entries, err := db.Latest(context.Background(), millrace, 1000)
	require.NoError(t, err)
	for _, e := range entries {
		if e.Payload.Kind() == kind && e.VoidedBy == 0 {
			n++
		}
	}
	return n
}

func TestDoneIsTakenBackByUndo(t *testing.T) {
	_, db, say := reminded(t)
	r := say("Odalys", 2*time.Hour, "duty done 1")
	require.Nil(t, r.Err)
	undo := slices.IndexFunc(r.Actions, func(a commands.Action) bool { return strings.HasPrefix(a.Line, "undo ") })
	require.GreaterOrEqual(t, undo, 0)
	require.NotNil(t, say("Tobias", 2*time.Hour, r.Actions[undo].Line).Err, "another member may not")
	require.Nil(t, say("Odalys", 2*time.Hour, r.Actions[undo].Line).Err)
	assert.Zero(t, count(t, db, heap.KindTurned), "the entry does not stand")

	r = say("Odalys", 2*time.Hour, "duty done 1")
	require.NotNil(t, r.Err)
	assert.Equal(t, fault.Unavailable, r.Err.Code, "until the record has opened it again")
	remind(t, db, commands.Call{Place: millrace, Now: summer.Add(24 * time.Hour)})
	require.Nil(t, say("Tobias", 25*time.Hour, "duty done 1").Err)
	assert.Equal(t, 1, count(t, db, heap.KindTurned))
}

func TestWhatWasLoggedByHandIsNotLoggedAgain(t *testing.T) {
	_, db, say := reminded(t)
	require.Nil(t, say("Tobias", 2*time.Hour, "log turn").Err)
	for _, press := range []string{"duty done 1", "duty later 1", "duty unneeded 1"} {
		r := say("Odalys", 2*time.Hour, press)
		require.NotNil(t, r.Err, press)
		assert.Contains(t, r.Headline, "Tobias did it")
	}
	assert.Equal(t, 1, count(t, db, heap.KindTurned))
}

func TestButtonsOfAFinishedHeap(t *testing.T) {
	_, db, say := reminded(t)
	require.Nil(t, say("Wren", 2*time.Hour, "heap finish").Err)
	for _, press := range []string{"duty done 1", "duty later 1", "duty unneeded 1 why:fine", "duty done 2"} {
		r := say("Odalys", 2*time.Hour, press)
		require.NotNil(t, r.Err, press)
		assert.Contains(t, r.Headline, "nothing calls for it any more")
	}
	assert.Zero(t, count(t, db, heap.KindTurned))
}

func TestARenamedHeapIsCalledByItsNewName(t *testing.T) {
	_, _, say := reminded(t)
	require.Nil(t, say("Wren", 2*time.Hour, `heap change name:"Gate Bay"`).Err)
	assert.Contains(t, say("Odalys", 2*time.Hour, "duty unneeded 1").Headline, "Turn Gate Bay")
	require.Nil(t, say("Odalys", 2*time.Hour, "duty done 1").Err)
}

func TestWhatAButtonCannotKnowIsAsked(t *testing.T) {
	_, db, say := reminded(t)
	r := say("Odalys", 2*time.Hour, "duty done 2")
	require.Nil(t, r.Err)
	assert.True(t, r.Private)
	require.Len(t, r.Actions, 5, "one for each class of squeeze")
	require.Nil(t, say("Odalys", 2*time.Hour, r.Actions[2].Line).Err)
	assert.Equal(t, 1, count(t, db, heap.KindFeel))
	assert.NotNil(t, say("Tobias", 2*time.Hour, "duty done 2").Err, "it is done by what was logged")
}

func TestReasonsTeach(t *testing.T) {
	for why, want := range map[string]duty.Taught{
		"early": {Heap: 1, Kind: advice.Turn, Every: 1, Until: duty.Date{Year: 2026, Month: 6, Day: 15}},
		"fine":  {Heap: 1, Kind: advice.Turn, Until: duty.Date{Year: 2026, Month: 6, Day: 21}},
		"never": {Heap: 1, Kind: advice.Turn, Never: true},
	} {
		t.Run(why, func(t *testing.T) {
			_, db, say := reminded(t)
			r := say("Odalys", 2*time.Hour, "duty unneeded 1 why:"+why)
			require.Nil(t, r.Err)
			assert.True(t, r.Private && r.Replace, "in place of the question")
			plan, err := db.Plan(context.Background(), millrace)
			require.NoError(t, err)
			want.By = person("Odalys")
			assert.Equal(t, []duty.Taught{want}, plan.Taught)
			item, err := db.Item(context.Background(), millrace, 1)
			require.NoError(t, err)
			assert.Equal(t, duty.Unneeded, item.State)
			require.NotNil(t, say("Tobias", 2*time.Hour, "duty unneeded 1 why:fine").Err, "one reason counts")
			require.Nil(t, say("Odalys", 2*time.Hour, "duty forget North Bay turning").Err)
		})
	}
	t.Run("done", func(t *testing.T) {
		_, db, say := reminded(t)
		r := say("Odalys", 2*time.Hour, "duty unneeded 1 why:done")
		require.Nil(t, r.Err)
		assert.True(t, r.Private && r.Replace)
		assert.Equal(t, 1, count(t, db, heap.KindTurned))
	})
}

func TestAnOverheatingHeapIsNeverNever(t *testing.T) {
	db := record(t)
	a := assistantOver(db)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	for _, line := range []string{"heap start North Bay", "duty when daily 18:00", "log temp 76"} {
		require.Nil(t, a.Line(context.Background(), call, line).Err, line)
	}
	require.Equal(t, advice.Cool, remind(t, db, call).Values["job.1.kind"].Value)
	assert.Len(t, a.Line(context.Background(), call, "duty unneeded 1").Actions, 2)
	r := a.Line(context.Background(), call, "duty unneeded 1 why:never")
	require.NotNil(t, r.Err)
	assert.Equal(t, fault.NotAllowed, r.Err.Code)
	require.Nil(t, a.Line(context.Background(), call, "duty unneeded 1 why:fine").Err)
	plan, err := db.Plan(context.Background(), millrace)
	require.NoError(t, err)
	assert.Empty(t, plan.Taught)
}

func TestOnlyOrganisersChangeTheReminders(t *testing.T) {
	_, db, say := reminded(t)
	require.Nil(t, say("Tobias", 0, "log temp 50").Err)
	organiser := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	a := assistantOver(db)
	require.Nil(t, a.Line(context.Background(), organiser, "garden organiser Wren").Err)
	for _, line := range []string{"duty when sat 6 pm", "duty off", "duty quiet off", "duty kinds covering off", "duty pause tomorrow", "duty weekly sunday", "duty order Tobias"} {
		r := say("Tobias", 0, line)
		require.NotNil(t, r.Err, line)
		assert.Equal(t, fault.NotAllowed, r.Err.Code, line)
		assert.Contains(t, r.Headline, "Wren", line)
	}
	for _, line := range []string{"duty show", "duty next", "duty kinds", "duty join", "duty away tomorrow", "duty away off"} {
		require.Nil(t, say("Tobias", 0, line).Err, line)
	}
	require.Nil(t, say("Odalys", 0, "duty join").Err)
	require.Equal(t, fault.NotAllowed, say("Tobias", 0, "duty leave Odalys").Err.Code)
	require.Nil(t, say("Tobias", 0, "duty swap Odalys").Err)
	require.Nil(t, say("Tobias", 2*time.Hour, "duty unneeded 1 why:fine").Err)
	require.Equal(t, fault.NotAllowed, say("Odalys", 0, "duty forget everything").Err.Code, "it was taught by another")
	require.Nil(t, say("Tobias", 0, "duty forget everything").Err)
	require.Nil(t, say("Wren", 0, "duty leave Odalys").Err)
	for _, offer := range say("Odalys", 0, "heap start Old Bay").Actions {
		assert.NotContains(t, offer.Line, "duty", "no offer to who may not")
	}
}

func TestTheRotaCompletes(t *testing.T) {
	a, _, say := reminded(t)
	for _, who := range []string{"Wren", "Odalys", "Tobias"} {
		require.Nil(t, say(who, 0, "duty join").Err)
	}
	require.Nil(t, say("Wren", 0, "duty kinds covering off").Err)
	at := func(path, option, typed string) []string {
		var values []string
		for _, c := range a.Complete(context.Background(), commands.Call{Place: millrace, By: person("Wren"), Now: summer, Path: path}, option, typed) {
			values = append(values, c.Value)
		}
		return values
	}
	assert.Contains(t, at("duty done", "job", ""), "1")
	assert.Equal(t, []string{"Wren, Odalys", "Wren, Tobias"}, at("duty order", "names", "Wren, "))
	require.Nil(t, say("Wren", 2*time.Hour, "duty unneeded 1 why:fine").Err)
	assert.NotContains(t, at("duty done", "job", ""), "1")
	assert.Equal(t, []string{"Odalys"}, at("duty swap", "person", "od"))
	assert.Equal(t, []string{"covering on"}, at("duty kinds", "kind", "covering"))
	assert.Contains(t, at("duty kinds", "kind", ""), "watering off")
	assert.Equal(t, []string{"North Bay, turning"}, at("duty forget", "what", "north"))
}

func TestARotaHoldsSoMany(t *testing.T) {
	_, _, say := reminded(t)
	for n := range duty.MaxMembers {
		require.Nil(t, say(fmt.Sprint("Member", n), 0, "duty join").Err)
	}
	r := say("Late", 0, "duty join")
	require.NotNil(t, r.Err)
	assert.Equal(t, fault.TooLong, r.Err.Code)
}
