package discordtest

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
)

// The platform's own error codes. Source: discord-api-docs c98d64bc,
// topics/opcodes-and-status-codes.mdx.
const (
	codeUnknownChannel     = 10003
	codeUnknownMessage     = 10008
	codeUnknownWebhook     = 10015
	codeUnknownInteraction = 10062
	codeAcknowledged       = 40060
	codeMissingAccess      = 50001
	codeBadForm            = 50035
)

func (p *Platform) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("/gateway/", p.gateway)
	mux.HandleFunc("GET /api/v9/gateway", p.faulty(AtGateway, func(w http.ResponseWriter, _ *http.Request) {
		answer(w, http.StatusOK, map[string]any{"url": p.gatewayURL()})
	}))
	mux.HandleFunc("PUT /api/v9/applications/{app}/commands", p.faulty(AtRegister, p.register))
	mux.HandleFunc("PUT /api/v9/applications/{app}/guilds/{guild}/commands", p.faulty(AtRegister, p.register))
	mux.HandleFunc("POST /api/v9/interactions/{id}/{token}/callback", p.faulty(AtCallback, p.callback))
	mux.HandleFunc("PATCH /api/v9/webhooks/{app}/{token}/messages/@original", p.faulty(AtEdit, p.edit))
	mux.HandleFunc("DELETE /api/v9/webhooks/{app}/{token}/messages/@original", p.faulty(AtWithdraw, p.withdraw))
	mux.HandleFunc("POST /api/v9/channels/{channel}/messages", p.faulty(AtPost, p.post))
	mux.HandleFunc("PATCH /api/v9/channels/{channel}/messages/{message}", p.faulty(AtEditMessage, p.change))
	mux.HandleFunc("POST /api/v9/webhooks/{app}/{token}", p.faulty(AtFollowUp, p.followUp))
	p.describe(mux)
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		p.fail("unexpected request %s %s", r.Method, r.URL.Path)
		refuse(w, http.StatusNotFound, 0, "404: Not Found")
	})
	return mux
}

// payload is what a request carries.
type payload struct {
	json  []byte
	files []File
}

// read reads a body, plain or in parts.
func read(r *http.Request) (payload, error) {
	kind, params, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil {
		return payload{}, fmt.Errorf("content type: %w", err)
	}
	if kind == "application/json" {
		data, err := io.ReadAll(r.Body)
		return payload{json: data}, err
	}
	var out payload
	parts := multipart.NewReader(r.Body, params["boundary"])
	for {
		part, err := parts.NextPart()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return out, err
		}
		data, err := io.ReadAll(part)
		if err != nil {
			return out, err
		}
		switch name := part.FormName(); name {
		case "payload_json":
			out.json = data
		case fmt.Sprintf("files[%d]", len(out.files)):
			out.files = append(out.files, File{Name: part.FileName(), ContentType: part.Header.Get("Content-Type"), Data: data})
		default:
			return out, fmt.Errorf("part %q is not expected", name)
		}
	}
}

// receive reads and checks a body. What breaks a rule fails the test and is
// refused as the platform would.
func (p *Platform) receive(w http.ResponseWriter, r *http.Request, check func(payload) error) (payload, bool) {
	body, err := read(r)
	if err == nil {
		err = check(body)
	}
	if err != nil {
		p.fail("%s %s: %v\n%s", r.Method, r.URL.Path, err, body.json)
		refuse(w, http.StatusBadRequest, codeBadForm, "Invalid Form Body")
		return body, false
	}
	return body, true
}

func (p *Platform) register(w http.ResponseWriter, r *http.Request) {
	if !p.accepts(r.Header.Get("Authorization")) {
		refuse(w, http.StatusUnauthorized, 0, "401: Unauthorized")
		return
	}
	body, ok := p.receive(w, r, checkCommands)
	if !ok {
		return
	}
	var commands []Command
	var raw []json.RawMessage
	if err := errors.Join(json.Unmarshal(body.json, &commands), json.Unmarshal(body.json, &raw)); err != nil {
		p.fail("commands cannot be read: %v", err)
	}
	p.update(func() {
		p.catalogues[r.PathValue("guild")] = raw
		p.commands, p.scope = commands, r.PathValue("guild")
		p.counts.Registered++
	})
	answer(w, http.StatusOK, []any{})
}

func (p *Platform) callback(w http.ResponseWriter, r *http.Request) {
	p.mu.Lock()
	x := p.exchanges[r.PathValue("token")]
	known := x != nil && x.id == r.PathValue("id")
	again := known && x.kind != 0
	p.mu.Unlock()
	switch {
	case !known:
		refuse(w, http.StatusNotFound, codeUnknownInteraction, "Unknown interaction")
		return
	case again:
		refuse(w, http.StatusBadRequest, codeAcknowledged, "Interaction has already been acknowledged.")
		return
	}
	body, ok := p.receive(w, r, checkCallback)
	if !ok {
		return
	}
	var c struct {
		Type int             `json:"type"`
		Data json.RawMessage `json:"data"`
	}
	var data struct {
		Flags   int      `json:"flags"`
		Choices []Choice `json:"choices"`
	}
	if json.Unmarshal(body.json, &c) != nil || len(c.Data) > 0 && json.Unmarshal(c.Data, &data) != nil {
		p.fail("a checked callback cannot be read: %s", body.json)
	}
	var opened Form
	if c.Type == kindForm {
		var err error
		if opened, err = readForm(c.Data); err != nil || x.began == typeForm || x.began == typeAutocomplete {
			p.fail("%s opens a form where none can be (%v): %s", r.URL.Path, err, body.json)
		}
	}
	if c.Type == kindUpdate && x.pressed == "" {
		p.fail("%s replaces a message where no button was pressed", r.URL.Path)
	}
	id := p.snowflake()
	known = true
	p.update(func() {
		m := message(payload{json: c.Data, files: body.files})
		switch pressed := p.messages[x.pressed]; c.Type {
		case kindMessage:
			x.answer = p.stand(m, id, x.channel, data.Flags&flagEphemeral != 0)
		case kindUpdate:
			if known = pressed != nil; !known {
				return
			}
			pressed.become(m)
			x.answer = pressed
		case kindForm:
			x.form = &opened
			if pressed != nil {
				above := *pressed
				x.form.above = &above
			}
		}
		x.kind, x.private, x.suggested = c.Type, data.Flags&flagEphemeral != 0, data.Choices
	})
	if !known {
		refuse(w, http.StatusNotFound, codeUnknownMessage, "Unknown Message")
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

func (p *Platform) edit(w http.ResponseWriter, r *http.Request) {
	x, ok := p.begun(w, r)
	if !ok {
		return
	}
	body, ok := p.receive(w, r, checkEdit)
	if !ok {
		return
	}
	id := p.snowflake()
	p.update(func() { x.answer = p.stand(message(body), id, x.channel, x.private) })
	answer(w, http.StatusOK, map[string]any{"id": id})
}

// withdraw takes the postponed answer away.
func (p *Platform) withdraw(w http.ResponseWriter, r *http.Request) {
	x, ok := p.begun(w, r)
	if !ok {
		return
	}
	p.update(func() { ok, x.withdrawn = x.kind == kindDeferred && x.answer == nil, true })
	if !ok {
		p.fail("an answer was taken back that had been given")
	}
	w.WriteHeader(http.StatusNoContent)
}

func (p *Platform) followUp(w http.ResponseWriter, r *http.Request) {
	x, ok := p.begun(w, r)
	if !ok {
		return
	}
	body, ok := p.receive(w, r, checkFollowUp)
	if !ok {
		return
	}
	var data struct {
		Flags int `json:"flags"`
	}
	if err := json.Unmarshal(body.json, &data); err != nil {
		p.fail("a checked message cannot be read: %v", err)
	}
	id := p.snowflake()
	p.update(func() {
		x.followUps = append(x.followUps, *p.stand(message(body), id, x.channel, data.Flags&flagEphemeral != 0))
	})
	answer(w, http.StatusOK, map[string]any{"id": id})
}

// begun is the exchange of a request that needs a first answer before it.
func (p *Platform) begun(w http.ResponseWriter, r *http.Request) (*Exchange, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	x := p.exchanges[r.PathValue("token")]
	if x == nil || x.kind == 0 || r.PathValue("app") != App {
		refuse(w, http.StatusNotFound, codeUnknownWebhook, "Unknown Webhook")
		return nil, false
	}
	return x, true
}

// message reads a checked message.
func message(body payload) Message {
	var data struct {
		Content  string  `json:"content"`
		Embeds   []Embed `json:"embeds"`
		Mentions struct {
			Users []string `json:"users"`
		} `json:"allowed_mentions"`
		Components []struct {
			Components []tappable `json:"components"`
		} `json:"components"`
		Attachments []struct {
			Description string `json:"description"`
		} `json:"attachments"`
	}
	_ = json.Unmarshal(body.json, &data) // it was read once already, by the check
	m := Message{Content: data.Content, Embeds: data.Embeds, Files: body.files, Notified: data.Mentions.Users}
	for at, row := range data.Components {
		for _, b := range row.Components {
			if b.Type == typeMenu {
				menu := Menu{ID: b.CustomID, Placeholder: b.Placeholder}
				for _, o := range b.Options {
					menu.Options = append(menu.Options, Button{Label: o.Label, ID: o.Value})
				}
				m.Menus = append(m.Menus, menu)
				continue
			}
			m.Buttons = append(m.Buttons, Button{Label: b.Label, ID: b.CustomID, Row: at})
		}
	}
	for i, a := range data.Attachments {
		m.Files[i].Alt = a.Description
	}
	return m
}
