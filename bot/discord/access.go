package discord

import (
	"context"
	"net/http"
	"slices"

	"github.com/bwmarrin/discordgo"

	"heapside/calc/heap"
	"heapside/reminders"
)

// Access is what the bot may do in a channel.
type Access struct {
	Place         heap.Place
	Server, Name  string // empty when they cannot be known
	Thread        bool
	Lacks         []string // permissions, by the names that the platform shows
	Locked        bool     // a thread that takes no messages
	Silenced      bool     // a moderator has silenced the bot in the server for a while
	ChannelGone   bool
	NotInTheGuild bool
}

// OK reports that messages with charts can be posted.
func (a Access) OK() bool {
	return len(a.Lacks) == 0 && !a.Locked && !a.Silenced && !a.ChannelGone && !a.NotInTheGuild
}

// need is a permission that the assistant lives by.
type need struct {
	right    int64
	name     string
	inside   bool // it counts in threads
	outside  bool // it counts elsewhere
	forPosts bool // without it no reminder comes, or none that can be read
}

// needed are all of them. Source: discord-api-docs c98d64bc,
// topics/permissions.mdx and topics/threads.mdx.
var needed = []need{
	{discordgo.PermissionViewChannel, "View Channel", true, true, true},
	{discordgo.PermissionSendMessages, "Send Messages", false, true, true},
	{discordgo.PermissionSendMessagesInThreads, "Send Messages in Threads", true, false, true},
	{discordgo.PermissionEmbedLinks, "Embed Links", true, true, true},
	{discordgo.PermissionAttachFiles, "Attach Files", true, true, false},
}

// Posts reports that reminders come through: a missing Attach Files stops none.
func (a Access) Posts() bool {
	if a.Locked || a.Silenced || a.ChannelGone || a.NotInTheGuild {
		return false
	}
	return !slices.ContainsFunc(needed, func(n need) bool { return n.forPosts && slices.Contains(a.Lacks, n.name) })
}

// membership is a server as far as its rights go, and what we are in it.
type membership struct {
	guild  *discordgo.Guild
	member *discordgo.Member
	err    error
}

// Access finds what the bot may do in a channel. Servers must have been asked
// before. An error says that it could not be found out.
func (i *Inspector) Access(ctx context.Context, at heap.Place) (Access, error) {
	a := Access{Place: at}
	name, in := i.servers[at.Guild]
	if a.Server = name; !in {
		a.NotInTheGuild = true
		return a, nil
	}
	m := i.membership(ctx, at.Guild)
	switch {
	case refusedFor(m.err, reminders.GuildGone, reminders.NoAccess):
		a.NotInTheGuild = true
		return a, nil
	case m.err != nil:
		return a, m.err
	}
	c, err := i.channel(ctx, at.Channel)
	rules := c
	if err == nil && c.IsThread() { // it has the rights of the channel it hangs on
		rules, err = i.channel(ctx, c.ParentID)
	}
	switch {
	case refusedFor(err, reminders.ChannelGone):
		a.ChannelGone = true
		return a, nil
	case refusedFor(err, reminders.NoAccess):
		a.Lacks = []string{needed[0].name}
		return a, nil
	case err != nil:
		return a, err
	}
	a.Name, a.Thread = c.Name, c.IsThread()
	a.Locked = c.ThreadMetadata != nil && c.ThreadMetadata.Locked
	a.Silenced = m.silenced(i)
	rights := permissions(m.guild, m.member, i.account.ID, rules.PermissionOverwrites)
	for _, n := range needed {
		if rights&n.right == 0 && (a.Thread && n.inside || !a.Thread && n.outside) {
			a.Lacks = append(a.Lacks, n.name)
		}
	}
	return a, nil
}

func (i *Inspector) membership(ctx context.Context, guild string) *membership {
	if m := i.guilds[guild]; m != nil {
		return m
	}
	m := &membership{guild: new(discordgo.Guild), member: new(discordgo.Member)}
	m.err = i.ask(ctx, http.MethodGet, discordgo.EndpointGuild(guild), nil, m.guild)
	if m.err == nil {
		m.err = i.ask(ctx, http.MethodGet, discordgo.EndpointGuildMember(guild, i.account.ID), nil, m.member)
	}
	i.guilds[guild] = m
	return m
}

func (m *membership) silenced(i *Inspector) bool {
	until := m.member.CommunicationDisabledUntil
	return until != nil && until.After(i.now())
}

func (i *Inspector) channel(ctx context.Context, id string) (*discordgo.Channel, error) {
	if c := i.channels[id]; c != nil {
		return c, nil
	}
	if !snowflake(id) {
		return nil, notOurs(reminders.ChannelGone, "channel", id)
	}
	c := new(discordgo.Channel)
	if err := i.ask(ctx, http.MethodGet, discordgo.EndpointChannel(id), nil, c); err != nil {
		return nil, err
	}
	i.channels[id] = c
	return c, nil
}

// everything is every right there is.
const everything = int64(-1)

// permissions are a member's rights in a channel: those of everyone and of the
// member's roles, then what the channel changes for everyone, for the roles
// together, and for the member. Owners and administrators may do everything.
// Source: discord-api-docs c98d64bc, topics/permissions.mdx, "Permission
// Hierarchy" and "Permission Overwrites".
func permissions(g *discordgo.Guild, m *discordgo.Member, id string, overwrites []*discordgo.PermissionOverwrite) int64 {
	if id == g.OwnerID {
		return everything
	}
	ours := func(role string) bool { return slices.Contains(m.Roles, role) }
	var rights int64
	for _, r := range g.Roles {
		if r.ID == g.ID || ours(r.ID) {
			rights |= r.Permissions
		}
	}
	if rights&discordgo.PermissionAdministrator != 0 {
		return everything
	}
	for _, concerns := range []func(*discordgo.PermissionOverwrite) bool{
		func(o *discordgo.PermissionOverwrite) bool { return o.ID == g.ID },
		func(o *discordgo.PermissionOverwrite) bool {
			return o.ID != g.ID && o.Type == discordgo.PermissionOverwriteTypeRole && ours(o.ID)
		},
		func(o *discordgo.PermissionOverwrite) bool {
			return o.Type == discordgo.PermissionOverwriteTypeMember && o.ID == id
		},
	} {
		var deny, allow int64
		for _, o := range overwrites {
			if concerns(o) {
				deny, allow = deny|o.Deny, allow|o.Allow
			}
		}
		rights = rights&^deny | allow
	}
	return rights
}
