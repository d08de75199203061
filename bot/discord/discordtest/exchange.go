package discordtest

import (
	"slices"
	"strings"
)

// Exchange is an interaction and what came back.
type Exchange struct {
	p         *Platform
	id, token string
	void      bool   // it could not begin; the test has failed
	channel   string // where it began
	pressed   string // the message whose button began it, or opened the form that did
	began     int    // by what kind of interaction

	// Guarded by Platform.mu.
	kind      int // of the first answer, 0 before it
	form      *Form
	private   bool
	answer    *Message
	withdrawn bool
	followUps []Message
	suggested []Choice
}

// The kinds of first answers.
const (
	kindMessage  = 4
	kindDeferred = 5
	kindUpdate   = 7
	kindSuggest  = 8
	kindForm     = 9
)

// Answer waits for the message that answers, be it the first answer, the one
// that took the place of "thinking", or the one whose button was pressed and
// that was replaced.
func (x *Exchange) Answer() Message {
	x.p.t.Helper()
	if x.void || !x.p.await("an answer", func() bool { return x.answer != nil }) {
		return Message{}
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	return *x.answer
}

// FollowUp waits for the first message after the answer.
func (x *Exchange) FollowUp() Message {
	x.p.t.Helper()
	if x.void || !x.p.await("a second message", func() bool { return len(x.followUps) > 0 }) {
		return Message{}
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	return x.followUps[0]
}

// Thinking waits for the first answer and reports whether it only said that
// the real one comes later.
func (x *Exchange) Thinking() bool {
	x.p.t.Helper()
	if x.void || !x.p.await("a first answer", func() bool { return x.kind != 0 }) {
		return false
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	return x.kind == kindDeferred
}

// Withdrawn waits for a postponed answer to be taken back.
func (x *Exchange) Withdrawn() bool {
	x.p.t.Helper()
	return !x.void && x.p.await("a postponed answer to be taken back", func() bool { return x.withdrawn })
}

// Replaced waits for the first answer and reports whether it took the place of
// the message whose button was pressed.
func (x *Exchange) Replaced() bool {
	x.p.t.Helper()
	if x.void || !x.p.await("a first answer", func() bool { return x.kind != 0 }) {
		return false
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	return x.kind == kindUpdate
}

// Outcome is what an interaction came to: a form, or a message, which took the
// place of the one above when it replaced that.
type Outcome struct {
	Form     *Form
	Message  Message
	Replaced bool
}

// Outcome waits for what the interaction comes to, at once or late.
func (x *Exchange) Outcome() Outcome {
	x.p.t.Helper()
	if x.void || !x.p.await("an outcome", func() bool { return x.form != nil || x.answer != nil || x.withdrawn }) {
		return Outcome{}
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	switch pressed := x.p.messages[x.pressed]; {
	case x.form != nil:
		return Outcome{Form: x.form}
	case x.answer == nil && pressed != nil:
		return Outcome{Message: *pressed, Replaced: true}
	case x.answer == nil:
		return Outcome{}
	}
	return Outcome{Message: *x.answer, Replaced: x.kind == kindUpdate}
}

func (x *Exchange) choices() []Choice {
	x.p.t.Helper()
	if !x.p.await("suggestions", func() bool { return x.kind == kindSuggest }) {
		return nil
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	return x.suggested
}

// Message is a message as it arrived: text with its escapes.
type Message struct {
	ID       string
	Channel  string
	Nonce    string   // of one that nobody asked for
	Notified []string // the ids of those it notified when it came
	Edits    int      // how often another one took its place
	Private  bool
	Content  string
	Embeds   []Embed
	Buttons  []Button
	Menus    []Menu
	Files    []File
}

// Embed is a framed part of a message.
type Embed struct {
	Title       string  `json:"title"`
	Description string  `json:"description"`
	Fields      []Field `json:"fields"`
}

// Field is a titled part of an embed.
type Field struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Button is a button of a message, in a row counted from 0.
type Button struct {
	Label, ID string
	Row       int
}

// Menu is a list under a message to pick one of. Of an option ID is its value.
type Menu struct {
	ID, Placeholder string
	Options         []Button
}

// File is an uploaded file; Alt is its description.
type File struct {
	Name, ContentType, Alt string
	Data                   []byte
}

// Text is all text of the message as it arrived, in reading order.
func (m Message) Text() string {
	parts := []string{m.Content}
	for _, e := range m.Embeds {
		parts = append(parts, e.Title, e.Description)
		for _, f := range e.Fields {
			parts = append(parts, f.Name, f.Value)
		}
	}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), "\n")
}

// Shown is the text as a person reads it: escapes and emphasis taken out.
func (m Message) Shown() string {
	var b strings.Builder
	escaped := false
	for _, r := range strings.ReplaceAll(m.Text(), "**", "") {
		if r == '\\' && !escaped {
			escaped = true
			continue
		}
		escaped = false
		b.WriteRune(r)
	}
	return b.String()
}

// Command is a registered command.
type Command struct {
	Name        string   `json:"name"`
	Description string   `json:"description"`
	Options     []Option `json:"options"`
}

// Option is a registered option, or a subcommand (type 1) or a group of them
// (type 2).
type Option struct {
	Type         int      `json:"type"`
	Name         string   `json:"name"`
	Description  string   `json:"description"`
	Required     bool     `json:"required"`
	Autocomplete bool     `json:"autocomplete"`
	Choices      []Choice `json:"choices"`
	Options      []Option `json:"options"`
}

// Choice is something to pick.
type Choice struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}
