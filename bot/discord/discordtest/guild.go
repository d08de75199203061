package discordtest

import (
	"encoding/json"
	"slices"
	"time"
)

// Permissions that the assistant needs. Source: discord-api-docs c98d64bc,
// topics/permissions.mdx.
const (
	ViewChannel   int64 = 1 << 10
	SendMessages  int64 = 1 << 11
	EmbedLinks    int64 = 1 << 14
	AttachFiles   int64 = 1 << 15
	SendInThreads int64 = 1 << 38
)

// usual is what everyone may do on a server until told otherwise.
const usual = ViewChannel | SendMessages | EmbedLinks | AttachFiles | SendInThreads

// Bot is the id of the bot's own user.
const Bot = botID

// Types of a channel.
const (
	typeText   = 0
	typeThread = 11
)

// guild is one that the bot is, or was, in. Guarded by Platform.mu.
type guild struct {
	name     string
	everyone int64
	roles    []role
	owned    bool // by the bot
	silenced time.Time
	removed  bool
}

// role is one that a server gave.
type role struct {
	id     string
	rights int64
	ours   bool
}

// overwrite is what a channel changes of somebody's rights.
type overwrite struct {
	whose       string
	allow, deny int64
}

// guild is the server of an id, made when nobody named it yet. The lock is held.
func (p *Platform) guild(id string) *guild {
	s := p.guilds[id]
	if s == nil {
		s = &guild{name: "server " + id, everyone: usual}
		p.guilds[id] = s
	}
	return s
}

// NameServer names a server that the bot is in.
func (p *Platform) NameServer(id, name string) { p.update(func() { p.guild(id).name = name }) }

// Everyone sets what everyone may do on a server.
func (p *Platform) Everyone(guild string, rights int64) {
	p.update(func() { p.guild(guild).everyone = rights })
}

// Role adds a role to a server, which the bot has or not, and returns its id.
func (p *Platform) Role(guild string, rights int64, ours bool) string {
	id := p.snowflake()
	p.update(func() {
		s := p.guild(guild)
		s.roles = append(s.roles, role{id, rights, ours})
	})
	return id
}

// Own gives a server to the bot.
func (p *Platform) Own(guild string) { p.update(func() { p.guild(guild).owned = true }) }

// TimeOut times the bot out on a server.
func (p *Platform) TimeOut(guild string, until time.Time) {
	p.update(func() { p.guild(guild).silenced = until })
}

// NameChannel names a channel that AddChannel made known.
func (p *Platform) NameChannel(id, name string) { p.update(func() { p.channels[id].name = name }) }

// AddThread makes a thread known that hangs on a channel.
func (p *Platform) AddThread(parent, id, name string) {
	p.update(func() {
		p.channels[id] = &channel{guild: p.channels[parent].guild, name: name, parent: parent}
	})
}

// Lock locks a thread.
func (p *Platform) Lock(id string) { p.update(func() { p.channels[id].locked = true }) }

// Overwrite changes in a channel what somebody may do: everyone (whose is the
// id of the server), a role, or the bot itself.
func (p *Platform) Overwrite(id, whose string, allow, deny int64) {
	p.update(func() {
		c := p.channels[id]
		c.overwrites = append(slices.DeleteFunc(c.overwrites, func(o overwrite) bool { return o.whose == whose }), overwrite{whose, allow, deny})
	})
}

// rights are what the bot may do where a person types: what everyone and its
// roles may, and what the channel changes of that for everyone and for itself.
func (p *Platform) rights(by Caller) int64 {
	p.mu.Lock()
	defer p.mu.Unlock()
	rights := usual
	if s := p.guilds[by.Guild]; s != nil {
		rights = s.everyone
		for _, r := range s.roles {
			if r.ours {
				rights |= r.rights
			}
		}
	}
	c := p.channels[by.Channel]
	if c == nil {
		return rights
	}
	for _, whose := range []string{by.Guild, botID} {
		for _, o := range c.overwrites {
			if o.whose == whose {
				rights = rights&^o.deny | o.allow
			}
		}
	}
	return rights
}

// Leftover registers in a server what is registered everywhere, as a trial
// leaves it.
func (p *Platform) Leftover(guild string) {
	p.update(func() {
		p.guild(guild)
		p.catalogues[guild] = p.catalogues[""]
	})
}

// CommandsOf is how many commands a server has of its own; the empty id means
// those for everywhere.
func (p *Platform) CommandsOf(guild string) int {
	p.mu.Lock()
	defer p.mu.Unlock()
	return len(p.catalogues[guild])
}

// Asked is how many questions about the account were answered or refused.
func (p *Platform) Asked() int {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.asked
}

// Unregister takes commands for everywhere away; without names, all.
func (p *Platform) Unregister(names ...string) {
	p.update(func() {
		p.catalogues[""] = slices.DeleteFunc(slices.Clone(p.catalogues[""]), func(raw json.RawMessage) bool {
			var c Command
			return json.Unmarshal(raw, &c) != nil || len(names) == 0 || slices.Contains(names, c.Name)
		})
	})
}
