package discordtest

import (
	"cmp"
	"encoding/json"
	"net/http"
	"slices"
)

// channel is a place where messages can stand. Guarded by Platform.mu.
type channel struct {
	guild   string
	deleted bool
	refuses int // the platform's code for why we may not write; 0: we may

	name       string
	parent     string // of a thread
	locked     bool
	overwrites []overwrite
}

// AddChannel makes a channel known, as whoever types or presses something there
// does. A message for any other channel fails the test.
func (p *Platform) AddChannel(guild, id string) {
	p.update(func() {
		if p.channels[id] == nil {
			p.channels[id] = &channel{guild: guild}
			p.guild(guild)
		}
	})
}

// DeleteChannel deletes a channel with all that stands in it.
func (p *Platform) DeleteChannel(id string) {
	p.update(func() {
		if c := p.channels[id]; c != nil {
			c.deleted = true
		}
		for key, m := range p.messages {
			if m.Channel == id {
				delete(p.messages, key)
			}
		}
	})
}

// Forbid makes a channel refuse messages with one of the platform's codes, such
// as 50013 for a permission that is missing, until Allow.
func (p *Platform) Forbid(id string, code int) {
	p.update(func() {
		if c := p.channels[id]; c != nil {
			c.refuses = code
		}
	})
}

// Allow lets messages into a channel again.
func (p *Platform) Allow(id string) { p.Forbid(id, 0) }

// RemoveBot removes us from a server: none of its channels can be reached any
// more (code 50001, from memory), and we are told if we asked for such news.
func (p *Platform) RemoveBot(guild string) {
	p.t.Helper()
	p.update(func() {
		p.guild(guild).removed = true
		for _, c := range p.channels {
			if c.guild == guild {
				c.refuses = codeMissingAccess
			}
		}
	})
	p.news("GUILD_DELETE", map[string]any{"id": guild})
}

// Outage tells that a server is out of order for a while, if we asked for such
// news.
func (p *Platform) Outage(guild string) {
	p.t.Helper()
	p.news("GUILD_DELETE", map[string]any{"id": guild, "unavailable": true})
}

// news sends an event of a server to whoever asked for those, which is known
// once a gateway that was called is open.
func (p *Platform) news(kind string, data any) {
	p.t.Helper()
	if p.Counts().Connected > 0 && p.opened() && p.Counts().Intents&intentGuilds != 0 {
		p.Dispatch(kind, data)
	}
}

// DeleteMessage deletes a message.
func (p *Platform) DeleteMessage(id string) { p.update(func() { delete(p.messages, id) }) }

// ForgetNonces lets the few minutes pass in which a nonce is remembered.
func (p *Platform) ForgetNonces() { p.update(func() { clear(p.nonces) }) }

// Posts are the messages that stand in a channel and that nobody asked for,
// oldest first.
func (p *Platform) Posts(channel string) []Message {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.posts(channel)
}

// AwaitPosts waits until n messages that nobody asked for stand in a channel.
func (p *Platform) AwaitPosts(channel string, n int) []Message {
	p.t.Helper()
	var found []Message
	p.await("messages in a channel", func() bool {
		found = p.posts(channel)
		return len(found) >= n
	})
	return found
}

func (p *Platform) posts(channel string) []Message {
	var out []Message
	for _, m := range p.messages {
		if m.Channel == channel && m.Nonce != "" {
			out = append(out, *m)
		}
	}
	slices.SortFunc(out, func(a, b Message) int { return cmp.Compare(a.ID, b.ID) }) // ids grow and are equally long
	return out
}

// Message is a message as it stands now; false when none has this id.
func (p *Platform) Message(id string) (Message, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if m := p.messages[id]; m != nil {
		return *m, true
	}
	return Message{}, false
}

// AwaitMessage waits until a message is as expected, as after an edit.
func (p *Platform) AwaitMessage(what, id string, expected func(Message) bool) Message {
	p.t.Helper()
	var found Message
	p.await(what, func() bool {
		m := p.messages[id]
		if m == nil || !expected(*m) {
			return false
		}
		found = *m
		return true
	})
	return found
}

// stand puts a message into a channel. The lock is held.
func (p *Platform) stand(m Message, id, channel string, private bool) *Message {
	m.ID, m.Channel, m.Private = id, channel, private
	p.messages[id] = &m
	return &m
}

// become puts another message in the place of this one. The lock is held.
func (m *Message) become(other Message) {
	other.ID, other.Channel, other.Private = m.ID, m.Channel, m.Private
	other.Nonce, other.Notified, other.Edits = m.Nonce, m.Notified, m.Edits+1
	*m = other
}

// post takes a message that nobody asked for.
func (p *Platform) post(w http.ResponseWriter, r *http.Request) {
	if !p.admits(w, r) {
		return
	}
	body, ok := p.receive(w, r, checkPost)
	if !ok {
		return
	}
	var data struct {
		Nonce string `json:"nonce"`
	}
	if err := json.Unmarshal(body.json, &data); err != nil {
		p.fail("a checked message cannot be read: %v", err)
	}
	id, into := p.snowflake(), r.PathValue("channel")
	var m Message
	p.update(func() {
		first := p.nonces[data.Nonce]
		if first == nil {
			first = p.stand(message(body), id, into, false)
			first.Nonce = data.Nonce
			p.nonces[data.Nonce] = first
		}
		m = *first
	})
	if m.Channel != into {
		p.fail("the nonce %s was used in channel %s and in %s", data.Nonce, m.Channel, into)
	}
	answer(w, http.StatusOK, map[string]any{"id": m.ID, "channel_id": m.Channel, "nonce": m.Nonce})
}

// change puts a message in the place of one that stands in a channel.
func (p *Platform) change(w http.ResponseWriter, r *http.Request) {
	if !p.admits(w, r) {
		return
	}
	body, ok := p.receive(w, r, checkChange)
	if !ok {
		return
	}
	known := false
	p.update(func() {
		m := p.messages[r.PathValue("message")]
		if known = m != nil && !m.Private && m.Channel == r.PathValue("channel"); known {
			m.become(message(body))
		}
	})
	if !known {
		refuse(w, http.StatusNotFound, codeUnknownMessage, "Unknown Message")
		return
	}
	answer(w, http.StatusOK, map[string]any{"id": r.PathValue("message")})
}

// admits reports whether we may write in the channel of a request, and answers
// it when not.
func (p *Platform) admits(w http.ResponseWriter, r *http.Request) bool {
	p.mu.Lock()
	c := p.channels[r.PathValue("channel")]
	var now channel
	if c != nil {
		now = *c
	}
	p.mu.Unlock()
	switch {
	case !p.accepts(r.Header.Get("Authorization")):
		refuse(w, http.StatusUnauthorized, 0, "401: Unauthorized")
	case c == nil:
		p.fail("%s %s: nobody named this channel", r.Method, r.URL.Path)
		refuse(w, http.StatusNotFound, codeUnknownChannel, "Unknown Channel")
	case now.deleted:
		refuse(w, http.StatusNotFound, codeUnknownChannel, "Unknown Channel")
	case now.refuses != 0:
		refuse(w, http.StatusForbidden, now.refuses, "Forbidden")
	default:
		return true
	}
	return false
}
