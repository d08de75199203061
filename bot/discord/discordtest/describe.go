package discordtest

import (
	"encoding/json"
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"
)

// The platform's own error code for a server that the bot is not in (see rest.go).
const codeUnknownGuild = 10004

// described answers a question about the account. What does not conform to the
// published description fails the test: nobody shall learn from a wrong example.
func (p *Platform) described(schema string, of func(r *http.Request) (value any, code int)) http.HandlerFunc {
	return p.faulty(AtLook, func(w http.ResponseWriter, r *http.Request) {
		p.update(func() { p.asked++ })
		if !p.accepts(r.Header.Get("Authorization")) {
			refuse(w, http.StatusUnauthorized, 0, "401: Unauthorized")
			return
		}
		p.mu.Lock()
		value, code := of(r)
		p.mu.Unlock()
		switch {
		case code == codeMissingAccess:
			refuse(w, http.StatusForbidden, code, "Missing Access")
			return
		case code != 0:
			refuse(w, http.StatusNotFound, code, "Unknown")
			return
		}
		parts, many := value.([]any)
		if !many {
			parts = []any{value}
		}
		for _, part := range parts {
			if data, err := json.Marshal(part); err != nil {
				p.fail("%s: %v", r.URL.Path, err)
			} else if err := conforms(schemaOf(schema, part), data); err != nil {
				p.fail("the answer to %s is not as described: %v", r.URL.Path, err)
			}
		}
		answer(w, http.StatusOK, value)
	})
}

// schemaOf is the schema of a value; that of channels depends on their type.
func schemaOf(name string, value any) string {
	if c, ok := value.(map[string]any); ok && name == schemaChannel && c["type"] == typeThread {
		return schemaThread
	}
	return name
}

func (p *Platform) describe(mux *http.ServeMux) {
	for _, d := range []struct {
		path, schema string
		of           func(*http.Request) (any, int)
	}{
		{"users/@me", schemaMe, func(*http.Request) (any, int) { return me(), 0 }},
		{"users/@me/guilds", schemaMyGuild, p.myGuilds},
		{"applications/@me", schemaApp, func(*http.Request) (any, int) { return application(), 0 }},
		{"applications/{app}/commands", schemaRegistered, p.registered},
		{"applications/{app}/guilds/{guild}/commands", schemaRegistered, p.registered},
		{"guilds/{guild}", schemaGuild, p.describeGuild},
		{"guilds/{guild}/members/{user}", schemaMember, p.describeMember},
		{"channels/{channel}", schemaChannel, p.describeChannel},
	} {
		mux.HandleFunc("GET /api/v9/"+d.path, p.described(d.schema, d.of))
	}
}

func me() map[string]any {
	return map[string]any{
		"id": botID, "username": "Heapside", "avatar": nil, "discriminator": "0", "public_flags": 0, "flags": 0,
		"global_name": nil, "mfa_enabled": false, "locale": "en-GB", "bot": true, "primary_guild": nil,
	}
}

func application() map[string]any {
	return map[string]any{
		"id": App, "name": "Heapside", "icon": nil, "description": "", "type": nil, "verify_key": "00", "flags": 0, "flags_new": "0",
		"redirect_uris": []any{}, "interactions_endpoint_url": nil, "role_connections_verification_url": nil, "owner": me(),
		"approximate_guild_count": 1, "approximate_user_install_count": 0, "approximate_user_authorization_count": 0,
		"explicit_content_filter": 0, "team": nil, "eligible_oauth2_scopes": []any{},
	}
}

// myGuilds lists the servers that the bot is in, from an id on.
func (p *Platform) myGuilds(r *http.Request) (any, int) {
	limit, _ := strconv.Atoi(r.URL.Query().Get("limit"))
	out := []any{}
	for _, id := range slices.Sorted(maps.Keys(p.guilds)) {
		if s := p.guilds[id]; !s.removed && id > r.URL.Query().Get("after") && len(out) < limit {
			out = append(out, map[string]any{"id": id, "name": s.name, "icon": nil, "banner": nil, "owner": s.owned, "permissions": digits(s.everyone), "features": []any{}})
		}
	}
	return out, 0
}

// registered lists commands as they were put, without what is empty, and in
// other languages only when asked for those.
func (p *Platform) registered(r *http.Request) (any, int) {
	guild := r.PathValue("guild")
	if s := p.guilds[guild]; guild != "" && (s == nil || s.removed) {
		return nil, codeMissingAccess
	}
	out := []any{}
	for n, raw := range p.catalogues[guild] {
		var c map[string]any
		if err := json.Unmarshal(raw, &c); err != nil {
			return err.Error(), 0
		}
		c = lean(c, r.URL.Query().Get("with_localizations") == "true").(map[string]any)
		c["id"], c["application_id"], c["version"], c["default_member_permissions"] = strconv.Itoa(900+n), App, "1", nil
		if guild != "" {
			c["guild_id"] = guild
		}
		out = append(out, c)
	}
	return out, 0
}

// lean is a value without empty members and, unless asked for, translations.
func lean(value any, translated bool) any {
	switch v := value.(type) {
	case map[string]any:
		for key, member := range v {
			if member == nil || strings.HasSuffix(key, "_localizations") && !translated {
				delete(v, key)
				continue
			}
			v[key] = lean(member, translated)
		}
	case []any:
		for n := range v {
			v[n] = lean(v[n], translated)
		}
	}
	return value
}

func (p *Platform) describeGuild(r *http.Request) (any, int) {
	id := r.PathValue("guild")
	s := p.guilds[id]
	if s == nil || s.removed {
		return nil, codeUnknownGuild
	}
	owner := "1"
	if s.owned {
		owner = botID
	}
	roles := []any{describeRole(id, "@everyone", s.everyone)}
	for _, r := range s.roles {
		roles = append(roles, describeRole(r.id, "role", r.rights))
	}
	g := map[string]any{"id": id, "name": s.name, "owner_id": owner, "roles": roles, "region": "", "preferred_locale": "en-GB", "afk_timeout": 60}
	for _, key := range []string{"features", "emojis", "stickers"} {
		g[key] = []any{}
	}
	for _, key := range []string{"widget_enabled", "premium_progress_bar_enabled", "nsfw"} {
		g[key] = false
	}
	for _, key := range []string{
		"system_channel_flags", "verification_level", "default_message_notifications", "mfa_level", "explicit_content_filter",
		"max_members", "max_stage_video_channel_users", "max_video_channel_users", "premium_tier", "premium_subscription_count", "nsfw_level",
	} {
		g[key] = 0
	}
	for _, key := range []string{
		"icon", "description", "home_header", "splash", "discovery_splash", "banner", "application_id", "afk_channel_id",
		"system_channel_id", "widget_channel_id", "max_presences", "vanity_url_code", "rules_channel_id", "safety_alerts_channel_id",
		"public_updates_channel_id", "incidents_data",
	} {
		g[key] = nil
	}
	return g, 0
}

func describeRole(id, name string, rights int64) map[string]any {
	return map[string]any{
		"id": id, "name": name, "permissions": digits(rights), "position": 0, "color": 0,
		"colors": map[string]any{"primary_color": 0, "secondary_color": nil, "tertiary_color": nil},
		"hoist":  false, "managed": false, "mentionable": false, "icon": nil, "unicode_emoji": nil, "flags": 0,
	}
}

func (p *Platform) describeMember(r *http.Request) (any, int) {
	s := p.guilds[r.PathValue("guild")]
	if s == nil || s.removed || r.PathValue("user") != botID {
		return nil, codeUnknownGuild
	}
	roles := []any{}
	for _, r := range s.roles {
		if r.ours {
			roles = append(roles, r.id)
		}
	}
	var silenced any
	if !s.silenced.IsZero() {
		silenced = s.silenced.UTC().Format(time.RFC3339)
	}
	return map[string]any{
		"avatar": nil, "banner": nil, "communication_disabled_until": silenced, "flags": 0, "joined_at": "2026-01-01T00:00:00Z",
		"nick": nil, "pending": false, "premium_since": nil, "roles": roles, "user": me(), "mute": false, "deaf": false,
	}, 0
}

func (p *Platform) describeChannel(r *http.Request) (any, int) {
	id := r.PathValue("channel")
	c := p.channels[id]
	switch {
	case c == nil || c.deleted:
		return nil, codeUnknownChannel
	case c.refuses == codeMissingAccess || p.guild(c.guild).removed:
		return nil, codeMissingAccess
	}
	name := c.name
	if name == "" {
		name = "channel-" + id
	}
	if c.parent != "" {
		return map[string]any{
			"id": id, "type": typeThread, "flags": 0, "guild_id": c.guild, "name": name, "parent_id": c.parent, "owner_id": "1",
			"thread_metadata": map[string]any{"archived": false, "archive_timestamp": "2026-01-01T00:00:00Z", "auto_archive_duration": 1440, "locked": c.locked},
			"message_count":   0, "member_count": 1, "total_message_sent": 0,
		}, 0
	}
	overwrites := []any{}
	for _, o := range c.overwrites {
		kind := 0
		if o.whose == botID {
			kind = 1
		}
		overwrites = append(overwrites, map[string]any{"id": o.whose, "type": kind, "allow": digits(o.allow), "deny": digits(o.deny)})
	}
	return map[string]any{"id": id, "type": typeText, "flags": 0, "guild_id": c.guild, "name": name, "position": 0, "permission_overwrites": overwrites}, 0
}

// digits is a set of permissions as it travels.
func digits(rights int64) string { return strconv.FormatInt(rights, 10) }
