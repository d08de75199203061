package discord

import (
	"bytes"
	"fmt"
	"path"
	"strconv"
	"strings"

	"github.com/bwmarrin/discordgo"

	"heapside/calc/heap"
	"heapside/commands"
)

// Limits of one message. Lengths are UTF-16 units.
// Source: discord-api-docs c98d64bc, resources/message.mdx and
// components/reference.mdx; the file sizes are the default of a server
// without extras, in reference.mdx.
const (
	maxContent     = 2000
	maxDescription = 4096
	maxField       = 1024
	maxEmbeds      = 6000 // over all embeds of a message
	maxFiles       = 10
	maxFileBytes   = 10 << 20
	maxFilesBytes  = 24 << 20 // 25 MiB for the whole request
	maxAlt         = 1024
	maxFileName    = 100 // own choice
)

// wholeAnswer is the attachment that carries what a message has no room for.
const wholeAnswer = "answer.txt"

// Message is a reply as the platform takes it. Everything in it is within the
// platform's limits and escaped; only Render makes one.
type Message struct {
	Private bool
	Notify  string // the id of the one person it notifies; empty: nobody
	Content string
	Embeds  []*discordgo.MessageEmbed
	Rows    []discordgo.ActionsRow
	Files   []commands.File
}

// Render lays a reply out as a message. All of its text is shown literally.
// What does not fit is cut, and then the whole answer comes as an attachment.
func Render(r commands.Reply) Message {
	if f, ok := newForm(r.Form); ok {
		r.Actions = append([]commands.Action{{Label: openForm, Line: strings.TrimPrefix(f.ID, formVersion)}}, r.Actions...)
	}
	m := Message{Private: r.Private || r.Err != nil, Rows: rows(r.Actions)}
	files, tooBig := fit(r.Files)
	var s shortener
	said, notify := address(r.To, r.Headline)
	m.Content = s.cut(said, maxContent)
	if !m.Private {
		m.Notify = notify
	}

	var fields []*discordgo.MessageEmbedField
	room, labels := maxEmbeds, r.Labels()
	for _, f := range []struct {
		name  string
		lines []string
	}{{labels.TakeCare, r.Cautions}, {labels.RestsOn, r.Basis}} {
		if text := s.lines(escaped(f.lines), maxField); text != "" {
			fields = append(fields, &discordgo.MessageEmbedField{Name: f.name, Value: text})
			room -= units(f.name) + units(text)
		}
	}
	description := s.lines(append(blocks(r.Body), escaped(tooBig)...), min(room, maxDescription))
	if description != "" || fields != nil {
		m.Embeds = []*discordgo.MessageEmbed{{Description: description, Fields: fields}}
	}
	if s.cutAny {
		files = append([]commands.File{textFile(r)}, files...)
	}
	m.Files = files[:min(len(files), maxFiles)]
	if m.Content == "" && m.Embeds == nil && m.Files == nil {
		m.Content = "There is nothing to show."
	}
	return m
}

// address says a headline to somebody, and whom that notifies: a person whom
// the platform knows is mentioned, another one called by name.
func address(to heap.Person, headline string) (said, notify string) {
	headline = oneLine(headline)
	if snowflake(to.ID) {
		return "<@" + to.ID + ">: " + Escape(headline), to.ID
	}
	if name := cut(oneLine(to.Name), longestName); name != "" && to.ID != "" {
		headline = name + ": " + headline
	}
	return Escape(headline), ""
}

// snowflake reports whether an id is one of the platform's: a number above
// nothing, as the platform writes it.
func snowflake(id string) bool {
	n, err := strconv.ParseUint(id, 10, 64)
	return err == nil && n > 0 && id == strconv.FormatUint(n, 10)
}

// shortener cuts text to limits and remembers whether it ever had to.
type shortener struct{ cutAny bool }

func (s *shortener) cut(text string, limit int) string {
	short := cut(text, limit)
	s.cutAny = s.cutAny || short != text
	return short
}

// lines joins lines while they fit, and says in the last one that there is more.
func (s *shortener) lines(lines []string, limit int) string {
	text := strings.TrimSpace(strings.Join(lines, "\n"))
	if units(text) <= limit {
		return text
	}
	s.cutAny = true
	const more = "\n… the rest is in " + wholeAnswer
	kept := cut(text, limit-units(more))
	if end := strings.LastIndexByte(kept, '\n'); end > len(kept)/2 {
		kept = kept[:end]
	}
	return kept + more
}

// escaped is each text on a line of its own, blank ones left out.
func escaped(texts []string) []string {
	var out []string
	for _, t := range texts {
		if t = oneLine(t); t != "" {
			out = append(out, Escape(t))
		}
	}
	return out
}

// blocks lays out the body: titles stand out, a blank line parts the blocks.
func blocks(body []commands.Block) []string {
	var out []string
	for _, b := range body {
		if len(out) > 0 {
			out = append(out, "")
		}
		if title := oneLine(b.Title); title != "" {
			out = append(out, "**"+Escape(title)+"**")
		}
		out = append(out, escaped(b.Lines)...)
	}
	return out
}

// fit keeps the files that may be sent and says which may not.
func fit(files []commands.File) (kept []commands.File, tooBig []string) {
	total := 0
	for _, f := range files {
		f.Name = fileName(f.Name)
		f.Alt = cut(oneLine(f.Alt), maxAlt)
		if len(f.Data) > maxFileBytes || total+len(f.Data) > maxFilesBytes || len(kept) == maxFiles-1 {
			tooBig = append(tooBig, fmt.Sprintf("%s is too large to send here (%d kB).", f.Name, len(f.Data)/1000))
			continue
		}
		total += len(f.Data)
		kept = append(kept, f)
	}
	return kept, tooBig
}

// fileName is a name without a path and without characters that a header or
// a file system would trip over.
func fileName(name string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`"\:*?<>|;%`, r) {
			return '-'
		}
		return r
	}, path.Base(oneLine(name)))
	name = cut(name, maxFileName)
	if strings.Trim(name, "./ ") == "" {
		return "attachment"
	}
	return name
}

// textFile is the whole answer as plain text.
func textFile(r commands.Reply) commands.File {
	var b bytes.Buffer
	fmt.Fprintln(&b, plain(r.Headline))
	for _, block := range r.Body {
		fmt.Fprintln(&b)
		if block.Title != "" {
			fmt.Fprintln(&b, plain(block.Title))
		}
		for _, line := range block.Lines {
			fmt.Fprintln(&b, plain(line))
		}
	}
	for _, line := range append(append([]string{""}, r.Cautions...), r.Basis...) {
		fmt.Fprintln(&b, plain(line))
	}
	data := b.Bytes()
	return commands.File{
		Name: wholeAnswer, ContentType: "text/plain; charset=utf-8",
		Alt: "the whole answer as text", Data: data[:min(len(data), maxFileBytes/10)],
	}
}
