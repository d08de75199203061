package main

import (
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord/discordtest"
	"heapside/calc/duty"
	"heapside/calc/heap"
	"heapside/storage"
)

// platformSays answers every request without a network.
type platformSays struct {
	status int
	date   string
	asked  *http.Request
}

func (p *platformSays) RoundTrip(req *http.Request) (*http.Response, error) {
	p.asked = req
	return &http.Response{StatusCode: p.status, Header: http.Header{"Date": {p.date}}, Body: io.NopCloser(strings.NewReader("{}"))}, nil
}

// quiet is a run whose output is kept, and its errors are not.
func quiet(now func() time.Time, env ...string) (*Main, *strings.Builder) {
	out := new(strings.Builder)
	return &Main{Out: out, Err: io.Discard, Now: now, Getenv: getenv(env)}, out
}

// TestDoctorAtTheDoor is what the doctor finds before the platform tells more
// than a status.
func TestDoctorAtTheDoor(t *testing.T) {
	const noon = "2026-06-10T12:00:00Z"
	right, late := "Wed, 10 Jun 2026 12:00:03 GMT", "Wed, 10 Jun 2026 12:05:00 GMT"
	good := filled(t).db
	mud := filepath.Join(t.TempDir(), "mud.db")
	require.NoError(t, os.WriteFile(mud, []byte(strings.Repeat("mud ", 2000)), 0o600))
	for _, tt := range []struct {
		name, db, token string
		says            platformSays
		status          int
		out             string
	}{
		{"what the record holds", good, "secret", platformSays{status: 503, date: right}, 0, "1 heap, 3 entries"},
		{"the token is refused", good, "secret", platformSays{status: 401, date: right}, 1, "bad   token      The platform refuses it"},
		{"no token", good, "", platformSays{}, 1, "bad   token      Put the bot's token"},
		{"a token with a blank", good, "sec ret", platformSays{}, 1, "bad   token      discord: the bot's token is empty or holds blanks. Copy it anew"},
		{"the platform is out of order", good, "secret", platformSays{status: 503, date: right}, 0, "warn  platform   It gave no proper answer (discord: HTTP 503"},
		{"the platform asks to wait", good, "secret", platformSays{status: 429, date: right}, 0, "warn  platform   It gave no proper answer (the platform asked to wait)"},
		{"an answer of another kind", good, "secret", platformSays{status: 200, date: right}, 0, "warn  platform   It gave no proper answer (discord: the platform's answer names no account)"},
		{"the clock is right", good, "secret", platformSays{status: 503, date: right}, 0, "ok    clock      It differs by -3s"},
		{"the clock is late", good, "secret", platformSays{status: 503, date: late}, 1, "bad   clock      The clock here is -5m0s off"},
		{"no time told", good, "secret", platformSays{status: 503}, 0, "warn  clock"},
		{"no record yet", filepath.Join(t.TempDir(), "absent.db"), "secret", platformSays{status: 503, date: right}, 0, "warn  record"},
		{"no record of ours", mud, "secret", platformSays{status: 503, date: right}, 1, "bad   record"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var out, errs strings.Builder
			env := getenv([]string{"HEAPSIDE_TOKEN=" + tt.token, "HEAPSIDE_WEATHER=off"})
			m := &Main{Out: &out, Err: &errs, HTTP: &tt.says, Now: clockOf(noon), Getenv: env}
			assert.Equal(t, tt.status, m.Main(t.Context(), []string{"doctor", "-db", tt.db}), out.String())
			assert.Contains(t, out.String(), tt.out)
			assert.NotContains(t, out.String()+errs.String(), "secret")
			if tt.says.status != 0 {
				assert.Equal(t, "Bot "+tt.token, tt.says.asked.Header.Get("Authorization"))
			}
		})
	}
	t.Run("offline nobody is asked", func(t *testing.T) {
		says := platformSays{}
		var out strings.Builder
		m := &Main{Out: &out, Err: io.Discard, HTTP: &says, Now: time.Now, Getenv: getenv([]string{"HEAPSIDE_TOKEN=secret"})}
		assert.Equal(t, 0, m.Main(t.Context(), []string{"doctor", "-offline", "-json", "-db", good}))
		assert.Nil(t, says.asked)
		var found []finding
		require.NoError(t, json.Unmarshal([]byte(out.String()), &found))
		for _, f := range found {
			assert.Equal(t, "ok", f.Is, f.Say)
		}
	})
	t.Run("mending needs the network", func(t *testing.T) {
		got := heapside(t, nil, "", "doctor", "-offline", "-mend")
		assert.Equal(t, 2, got.status)
	})
}

// clinic is an installation to look at: a record of two channels that a process
// serves, a stand-in of the platform, and a weather service.
type clinic struct {
	t    *testing.T
	p    *discordtest.Platform
	sky  *service
	db   string
	hold *storage.Hold
}

const (
	bayChannel = "610000000000000001" // wren's; reminded
	binChannel = "610000000000000002" // tobias's; heaps only
)

func newClinic(t *testing.T) *clinic {
	t.Helper()
	c := &clinic{t: t, p: discordtest.New(t), sky: newService(t), db: filepath.Join(t.TempDir(), "garden.db")}
	db, err := storage.Open(t.Context(), c.db)
	require.NoError(t, err)
	for id, name := range map[string]string{bayChannel: "compost", binChannel: "bins"} {
		c.p.AddChannel(wren.Guild, id)
		c.p.NameChannel(id, name)
		_, err := db.StartHeap(t.Context(), heap.Heap{Place: heap.Place{Guild: wren.Guild, Channel: id}, Name: "North Bay"}, heap.Person{}, time.Now())
		require.NoError(t, err)
	}
	c.p.NameServer(wren.Guild, "Millrace Lane")
	_, err = db.ChangePlan(t.Context(), heap.Place{Guild: wren.Guild, Channel: bayChannel}, heap.Person{}, time.Now(), func(p *duty.Plan) error { *p = duty.Usual(); return nil })
	require.NoError(t, err)
	require.NoError(t, db.Close())
	c.hold, err = storage.Serve(c.db)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, c.hold.Release()) })
	require.Equal(t, 0, c.doctor([]string{"HEAPSIDE_WEATHER=off"}, "-mend").status)
	return c
}

// doctor runs the doctor, with settings besides those that all need.
func (c *clinic) doctor(env []string, args ...string) outcome {
	c.t.Helper()
	env = append(env, "HEAPSIDE_TOKEN="+discordtest.Token, "HEAPSIDE_OPEN_METEO_URL="+c.sky.URL, "HEAPSIDE_PLACES_URL="+c.sky.URL)
	var out, errs strings.Builder
	m := &Main{In: strings.NewReader(""), Out: &out, Err: &errs, HTTP: c.p.Transport(), Getenv: getenv(env)}
	status := m.Main(c.t.Context(), append([]string{"doctor", "-db", c.db}, args...))
	assert.NotContains(c.t, out.String()+errs.String(), discordtest.Token)
	return outcome{status, out.String(), errs.String()}
}

func TestDoctorFindsAHealthyInstallation(t *testing.T) {
	c := newClinic(t)
	require.NoError(t, c.hold.Release())
	servingAt(t, c.p, c.db, time.Now)
	c.p.Await("the commands", func(n discordtest.Counts) bool { return n.Registered == 2 })
	got := c.doctor(nil)
	assert.Equal(t, 0, got.status)
	for _, line := range []string{
		"ok    settings   From the environment alone",
		"ok    zone       No garden has set one yet",
		"ok    reminders  On in 1 channel, served by process ",
		"ok    token      The platform accepts it: the bot is “Heapside”.",
		"ok    clock      It differs by ",
		"ok    servers    The bot is in 1 server.",
		"ok    channels   The bot may see, write, embed and attach in #compost (in “Millrace Lane”) and #bins (in “Millrace Lane”).",
		"are registered everywhere, as this program has them.",
		"ok    weather    Asked about 51.48, 0.00 (Greenwich, as no garden on record says where it is), proper answers came from Open-Meteo and the search for places.",
		"ok    weather    Not asked, as they want to know whom to reach: MET Norway and the US National Weather Service. Set HEAPSIDE_WEATHER_CONTACT",
	} {
		assert.Contains(t, got.out, line)
	}
	for line := range strings.Lines(got.out) {
		assert.True(t, strings.HasPrefix(line, "ok "), line)
	}
}

// TestDoctorFindsWhatIsWrong is one finding in each row, with how it is mended.
func TestDoctorFindsWhatIsWrong(t *testing.T) {
	const bay, bins = "#compost (in “Millrace Lane”)", "#bins (in “Millrace Lane”)"
	for _, tt := range []struct {
		name   string
		scene  func(c *clinic)
		env    []string
		status int
		out    string
	}{
		{"nothing serves", func(c *clinic) { require.NoError(t, c.hold.Release()) }, nil, 0, "warn  reminders  On in 1 channel, but nothing serves this record. Start it: heapside serve."},
		{"a trial left commands", func(c *clinic) { c.p.Leftover(wren.Guild) }, nil, 0,
			"warn  trial      A trial (serve -guild) left commands in “Millrace Lane”, and there each appears twice. Clear them: heapside doctor -mend."},
		{"only a trial", func(c *clinic) { c.p.Leftover(wren.Guild); c.p.Unregister() }, nil, 0,
			"warn  commands   They are registered only in “Millrace Lane”, as a trial. Everywhere: heapside serve without -guild, or heapside doctor -mend."},
		{"nothing is registered", func(c *clinic) { c.p.Unregister() }, nil, 1, "bad   commands   None is registered everywhere."},
		{"a command is missing", func(c *clinic) { c.p.Unregister("mix") }, nil, 1, "bad   commands   They are not registered as this program has them: missing: mix."},
		{"may not write", func(c *clinic) { c.p.Overwrite(bayChannel, wren.Guild, 0, discordtest.SendMessages) }, nil, 1,
			"bad   channels   In " + bay + " the bot lacks Send Messages, so that reminders do not come through. Channel settings > Permissions: add the bot there and allow this."},
		{"may not write where nothing is reminded", func(c *clinic) { c.p.Overwrite(binChannel, wren.Guild, 0, discordtest.SendMessages) }, nil, 0,
			"warn  channels   In " + bins + " the bot lacks Send Messages. Channel settings"},
		{"may not attach", func(c *clinic) { c.p.Overwrite(bayChannel, wren.Guild, 0, discordtest.AttachFiles) }, nil, 0, "warn  channels   In " + bay + " the bot lacks Attach Files. Channel settings"},
		{"hidden", func(c *clinic) { c.p.Forbid(bayChannel, 50001) }, nil, 1, "bad   channels   In " + bayChannel + " (in “Millrace Lane”) the bot lacks View Channel"},
		{"the same in both", func(c *clinic) {
			c.p.Overwrite(bayChannel, wren.Guild, 0, discordtest.AttachFiles)
			c.p.Overwrite(binChannel, wren.Guild, 0, discordtest.AttachFiles)
		}, nil, 0,
			"In " + bay + " and " + bins + " the bot lacks Attach Files"},
		{"a channel is gone", func(c *clinic) { c.p.DeleteChannel(bayChannel) }, nil, 0,
			"warn  channels   Gone: " + bayChannel + " (in “Millrace Lane”). What is on record there is kept; to write it out: heapside export -guild " + wren.Guild + " DIR"},
		{"removed from the server", func(c *clinic) { c.p.RemoveBot(wren.Guild) }, nil, 0,
			"warn  channels   The bot is no longer in the server " + wren.Guild + ", of which the record has the channels " + bayChannel + " and " + binChannel + ". Invite it again"},
		{"silenced", func(c *clinic) { c.p.TimeOut(wren.Guild, time.Now().Add(time.Hour)) }, nil, 1, "bad   channels   The bot is silenced in " + bay},
		{"the platform asks to wait", func(c *clinic) {
			c.p.Fail(discordtest.AtLook, discordtest.Fault{}, discordtest.Fault{}, discordtest.Fault{Status: http.StatusTooManyRequests, RetryAfter: time.Hour})
		}, nil, 0, "warn  platform   Not all was looked at: the platform asked to wait."},
		{"the weather does not answer", func(c *clinic) { c.sky.status.Store(429) }, nil, 0, "warn  weather    No proper answer came from Open-Meteo and the search for places: each wants to be asked less often."},
		{"the weather is off", func(*clinic) {}, []string{"HEAPSIDE_WEATHER=off"}, 0, "ok    weather    Switched off (HEAPSIDE_WEATHER)"},
		{"nobody to ask for weather", func(*clinic) {}, []string{"HEAPSIDE_WEATHER=met-norway"}, 0, "warn  weather    Not asked, as they want to know whom to reach: MET Norway. Set HEAPSIDE_WEATHER_CONTACT"},
		{"no such weather", func(*clinic) {}, []string{"HEAPSIDE_WEATHER=frogs"}, 1, "bad   weather    HEAPSIDE_WEATHER: weather service \"frogs\" is unknown"},
		{"no such log", func(*clinic) {}, []string{"HEAPSIDE_LOG=drums"}, 1, "bad   settings   HEAPSIDE_LOG is “drums”; say text or json."},
		{"metrics for all the world", func(*clinic) {}, []string{"HEAPSIDE_METRICS=0.0.0.0:9464"}, 1, "bad   settings   HEAPSIDE_METRICS: “0.0.0.0:9464” can be reached from other machines"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			c := newClinic(t)
			tt.scene(c)
			got := c.doctor(tt.env)
			assert.Contains(t, got.out, tt.out)
			assert.Equal(t, tt.status, got.status, got.out)
		})
	}
}

// TestDoctorMends: what is registered wrongly, or twice, is right afterwards.
func TestDoctorMends(t *testing.T) {
	c := newClinic(t)
	all := c.p.CommandsOf("")
	c.p.Leftover(wren.Guild)
	c.p.Unregister("mix", "log")
	got := c.doctor(nil, "-mend")
	assert.Equal(t, 0, got.status, got.out)
	assert.Contains(t, got.out, "are now registered everywhere; before, missing: mix and log.")
	assert.Contains(t, got.out, "ok    trial      The commands that a trial left in “Millrace Lane” are cleared; those for everywhere stay.")
	assert.Equal(t, all, c.p.CommandsOf(""))
	assert.Zero(t, c.p.CommandsOf(wren.Guild))
	again := c.doctor(nil, "-mend")
	assert.Contains(t, again.out, "are registered everywhere, as this program has them.")
	assert.NotContains(t, again.out, "trial")
}

// TestDoctorLooksAtSettings: a file that is not understood is a finding, and a
// value is never shown.
func TestDoctorLooksAtSettings(t *testing.T) {
	db := filled(t).db
	look := func(text string) outcome {
		path := filepath.Join(t.TempDir(), "heapside.conf")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return heapside(t, nil, "", "-config", path, "doctor", "-offline", "-db", db)
	}
	got := look("HEAPSIDE_TOKEN=secret\nHEAPSIDE_WEATHER=off\n")
	assert.Equal(t, 0, got.status, got.out)
	assert.Regexp(t, `ok    settings   “.*heapside.conf” is understood and sets HEAPSIDE_TOKEN and HEAPSIDE_WEATHER.`, got.out)
	assert.NotContains(t, got.out, "secret")
	got = look("HEAPSIDE_WHETHER=off\n")
	assert.Equal(t, 1, got.status)
	assert.Contains(t, got.out, `sets "HEAPSIDE_WHETHER", which is no setting; the nearest is HEAPSIDE_WEATHER.`)
	assert.Contains(t, got.out, "ok    record", "the rest is looked at all the same")
}
