package discord_test

import (
	"fmt"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/bot/discord/discordtest"
	"heapside/calc/heap"
	"heapside/commands"
)

// morning is when the account is looked at.
var morning = time.Date(2026, 6, 10, 8, 0, 0, 0, time.UTC)

const (
	millrace = "600000000000000001"
	compost  = "610000000000000001"
	bins     = "610000000000000002"
)

// looking is an Inspector at a stand-in that knows one server with a channel.
func looking(t *testing.T, catalogue []commands.Command) (*discordtest.Platform, *discord.Inspector) {
	t.Helper()
	p := discordtest.New(t)
	p.AddChannel(millrace, compost)
	p.NameServer(millrace, "Millrace Lane")
	p.NameChannel(compost, "compost")
	return p, looker(t, p, catalogue)
}

func looker(t *testing.T, p *discordtest.Platform, catalogue []commands.Command) *discord.Inspector {
	t.Helper()
	i, err := discord.NewInspector(discordtest.Token, catalogue, p.Transport(), func() time.Time { return morning })
	require.NoError(t, err)
	account, err := i.Account(t.Context())
	require.NoError(t, err)
	assert.Equal(t, discordtest.App, account.App)
	assert.Equal(t, discordtest.Bot, account.ID)
	assert.NotEmpty(t, account.Date)
	return i
}

// TestDifferences: what is registered as the catalogue has it shows none, and
// each kind of difference is named.
func TestDifferences(t *testing.T) {
	t.Parallel()
	catalogue := newGarden().Commands()
	p, i := looking(t, catalogue)
	d, err := i.Differences(t.Context())
	require.NoError(t, err)
	assert.Len(t, d.Missing, len(catalogue))

	require.NoError(t, i.Register(t.Context()))
	d, err = i.Differences(t.Context())
	require.NoError(t, err)
	assert.True(t, d.None(), "%+v", d)

	changed := func(change func(*commands.Command)) []commands.Command {
		c := commands.Command{Name: "stir", Summary: "Stir it", Options: []commands.Option{
			{Name: "how", Summary: "how it is stirred", Kind: commands.Pick, Choices: []commands.Choice{{Name: "well", Value: "well"}}}}}
		change(&c)
		return []commands.Command{c}
	}
	same := func(*commands.Command) {}
	require.NoError(t, looker(t, p, changed(same)).Register(t.Context()))
	for name, change := range map[string]func(*commands.Command){
		"its summary":    func(c *commands.Command) { c.Summary = "Stir it well" },
		"an option":      func(c *commands.Command) { c.Options[0].Summary = "how well" },
		"its need":       func(c *commands.Command) { c.Options[0].Required = true },
		"a choice":       func(c *commands.Command) { c.Options[0].Choices[0].Value = "slowly" },
		"its kind":       func(c *commands.Command) { c.Options[0].Kind = commands.Hint; c.Options[0].Choices = nil },
		"an option more": func(c *commands.Command) { c.Options = append(c.Options, commands.Option{Name: "b", Summary: "b"}) },
	} {
		d, err := looker(t, p, changed(change)).Differences(t.Context())
		require.NoError(t, err, name)
		assert.Equal(t, discord.Differences{Outdated: []string{"stir"}}, d, name)
	}
	d, err = looker(t, p, changed(func(c *commands.Command) { c.Name = "mash" })).Differences(t.Context())
	require.NoError(t, err)
	assert.Equal(t, discord.Differences{Missing: []string{"mash"}, Unknown: []string{"stir"}}, d)
}

func TestTrialsAreFoundAndCleared(t *testing.T) {
	t.Parallel()
	p, i := looking(t, newGarden().Commands())
	p.AddChannel("600000000000000009", bins)
	require.NoError(t, i.Register(t.Context()))
	n, err := i.Servers(t.Context())
	require.NoError(t, err)
	assert.Equal(t, 2, n)
	trials, err := i.Trials(t.Context())
	require.NoError(t, err)
	assert.Empty(t, trials)

	p.Leftover(millrace)
	trials, err = i.Trials(t.Context())
	require.NoError(t, err)
	everywhere := p.CommandsOf("")
	assert.Equal(t, []discord.Trial{{Guild: millrace, Name: "Millrace Lane", Commands: everywhere}}, trials)
	require.NoError(t, i.Clear(t.Context(), millrace))
	assert.Zero(t, p.CommandsOf(millrace))
	assert.Equal(t, everywhere, p.CommandsOf(""), "those for everywhere stay")
}

// TestServersOverManyPages: the platform lists 200 at a time.
func TestServersOverManyPages(t *testing.T) {
	t.Parallel()
	p, i := looking(t, newGarden().Commands())
	for n := range 200 {
		p.NameServer(fmt.Sprint(700000000000000000+n), "garden")
	}
	n, err := i.Servers(t.Context())
	require.NoError(t, err)
	assert.Equal(t, 201, n)
	_, err = i.Trials(t.Context())
	require.ErrorIs(t, err, discord.ErrEnough, "nobody is asked hundreds of questions")
}

// TestAccess follows the documented order: everyone and roles, then what the
// channel changes for everyone, for roles, for the bot itself.
func TestAccess(t *testing.T) {
	t.Parallel()
	const all = discordtest.ViewChannel | discordtest.SendMessages | discordtest.EmbedLinks | discordtest.AttachFiles | discordtest.SendInThreads
	const thread = "610000000000000009"
	for _, tc := range []struct {
		name  string
		scene func(p *discordtest.Platform)
		at    string
		lacks []string
		posts bool
		want  discord.Access // its marks only
	}{
		{name: "as a new server has it", scene: func(*discordtest.Platform) {}, posts: true},
		{name: "everyone may nothing", scene: func(p *discordtest.Platform) { p.Everyone(millrace, 0) }, lacks: []string{"View Channel", "Send Messages", "Embed Links", "Attach Files"}},
		{name: "a role of ours may", scene: func(p *discordtest.Platform) { p.Everyone(millrace, 0); p.Role(millrace, all, true) }, posts: true},
		{name: "a role of others may", scene: func(p *discordtest.Platform) {
			p.Everyone(millrace, discordtest.ViewChannel)
			p.Role(millrace, all, false)
		}, lacks: []string{"Send Messages", "Embed Links", "Attach Files"}},
		{name: "denied to everyone here", scene: func(p *discordtest.Platform) { p.Overwrite(compost, millrace, 0, discordtest.SendMessages) }, lacks: []string{"Send Messages"}},
		{name: "denied to everyone, allowed to our role", scene: func(p *discordtest.Platform) {
			role := p.Role(millrace, 0, true)
			p.Overwrite(compost, role, discordtest.SendMessages, 0)
			p.Overwrite(compost, millrace, 0, discordtest.SendMessages)
		}, posts: true},
		{name: "one role denies, another allows", scene: func(p *discordtest.Platform) {
			denies, allows := p.Role(millrace, 0, true), p.Role(millrace, 0, true)
			p.Overwrite(compost, allows, discordtest.EmbedLinks, 0)
			p.Overwrite(compost, denies, 0, discordtest.EmbedLinks)
		}, posts: true},
		{name: "a role of others is denied", scene: func(p *discordtest.Platform) {
			p.Overwrite(compost, p.Role(millrace, 0, false), 0, discordtest.SendMessages)
		}, posts: true},
		{name: "allowed to our role, denied to us", scene: func(p *discordtest.Platform) {
			p.Overwrite(compost, p.Role(millrace, 0, true), discordtest.EmbedLinks, 0)
			p.Overwrite(compost, discordtest.Bot, 0, discordtest.EmbedLinks)
		}, lacks: []string{"Embed Links"}},
		{name: "an administrator", scene: func(p *discordtest.Platform) {
			p.Role(millrace, discordtest.Administrator, true)
			p.Overwrite(compost, millrace, 0, all)
		}, posts: true},
		{name: "the owner", scene: func(p *discordtest.Platform) { p.Own(millrace); p.Everyone(millrace, 0) }, posts: true},
		{name: "no files", scene: func(p *discordtest.Platform) { p.Overwrite(compost, millrace, 0, discordtest.AttachFiles) }, lacks: []string{"Attach Files"}, posts: true},
		{name: "a thread, by the rights of its channel", at: thread, scene: func(p *discordtest.Platform) {
			p.Overwrite(compost, millrace, 0, discordtest.SendMessages)
		}, posts: true, want: discord.Access{Thread: true}},
		{name: "no threads", at: thread, scene: func(p *discordtest.Platform) {
			p.Overwrite(compost, millrace, 0, discordtest.SendInThreads)
		}, lacks: []string{"Send Messages in Threads"}, want: discord.Access{Thread: true}},
		{name: "a thread of a hidden channel", at: thread, scene: func(p *discordtest.Platform) { p.Forbid(compost, 50001) }, lacks: []string{"View Channel"}},
		{name: "a locked thread", at: thread, scene: func(p *discordtest.Platform) { p.Lock(thread) }, want: discord.Access{Thread: true, Locked: true}},
		{name: "silenced", scene: func(p *discordtest.Platform) { p.TimeOut(millrace, morning.Add(time.Hour)) }, want: discord.Access{Silenced: true}},
		{name: "silenced until lately", scene: func(p *discordtest.Platform) { p.TimeOut(millrace, morning.Add(-time.Hour)) }, posts: true},
		{name: "hidden", scene: func(p *discordtest.Platform) { p.Forbid(compost, 50001) }, lacks: []string{"View Channel"}},
		{name: "deleted", scene: func(p *discordtest.Platform) { p.DeleteChannel(compost) }, want: discord.Access{ChannelGone: true}},
		{name: "no id of a channel", at: "compost", scene: func(*discordtest.Platform) {}, want: discord.Access{ChannelGone: true}},
		{name: "removed from the server", scene: func(p *discordtest.Platform) { p.RemoveBot(millrace) }, want: discord.Access{NotInTheGuild: true}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p, i := looking(t, nil)
			p.AddThread(compost, thread, "a thread")
			tc.scene(p)
			_, err := i.Servers(t.Context())
			require.NoError(t, err)
			at := tc.at
			if at == "" {
				at = compost
			}
			got, err := i.Access(t.Context(), heap.Place{Guild: millrace, Channel: at})
			require.NoError(t, err)
			assert.Equal(t, tc.lacks, got.Lacks)
			assert.Equal(t, tc.posts, got.Posts())
			assert.Equal(t, tc.posts && tc.lacks == nil, got.OK())
			assert.Equal(t, tc.want, discord.Access{Thread: got.Thread, Locked: got.Locked, Silenced: got.Silenced, ChannelGone: got.ChannelGone, NotInTheGuild: got.NotInTheGuild})
		})
	}
}

// TestALookStopsWhenItIsNotWelcome: after the first answer that concerns the
// whole account nobody is asked again, and no error shows the token.
func TestALookStopsWhenItIsNotWelcome(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		name  string
		fault discordtest.Fault
		says  string
	}{
		{"asked to wait", discordtest.Fault{Status: http.StatusTooManyRequests, RetryAfter: time.Hour}, "429"},
		{"out of order", discordtest.Fault{Status: http.StatusServiceUnavailable}, "503"},
		{"cut off", discordtest.Fault{Cut: true}, "EOF"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p, i := looking(t, newGarden().Commands())
			_, err := i.Servers(t.Context())
			require.NoError(t, err)
			before := p.Asked()
			p.Fail(discordtest.AtLook, tc.fault, tc.fault) // a client may repeat one that was cut off
			_, err = i.Differences(t.Context())
			require.ErrorContains(t, err, tc.says)
			assert.NotContains(t, err.Error(), discordtest.Token)
			_, again := i.Access(t.Context(), heap.Place{Guild: millrace, Channel: compost})
			assert.Equal(t, err, again)
			_, again = i.Trials(t.Context())
			assert.Equal(t, err, again)
			assert.Equal(t, err, i.Clear(t.Context(), millrace))
			assert.Equal(t, before, p.Asked(), "nothing more is asked")
		})
	}
	t.Run("the token is refused", func(t *testing.T) {
		p := discordtest.New(t)
		p.RefuseToken()
		i, err := discord.NewInspector(discordtest.Token, nil, p.Transport(), nil)
		require.NoError(t, err)
		account, err := i.Account(t.Context())
		assert.True(t, discord.Refused(err))
		assert.NotEmpty(t, account.Date)
	})
	t.Run("no token", func(t *testing.T) {
		_, err := discord.NewInspector("two words", nil, nil, nil)
		require.ErrorContains(t, err, "token")
	})
}
