package commands

import (
	"fmt"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/mix"
)

// page is one page of the guide, short enough for a phone: at most pageLines
// lines of at most pageWidth characters. Gist answers in one line; Sources name
// who publishes what the lines say, with the address where it was read.
type page struct {
	topic   string
	aliases []string // other words for the topic, lower case
	asks    string   // a pattern for plain questions this page answers, or empty
	gist    string
	lines   []string
	sources []string
}

// The size of a page, own choice: one screen of a phone.
const (
	pageLines = 12
	pageWidth = 100
)

func (a *Assistant) guideCommand() Command {
	return Command{
		Name: "guide", Summary: "What the words mean, how to do things, what stays out and why, cautions, sources",
		Options: []Option{{Name: "topic", Summary: "a word, a material or a source; left out: the list of topics", Kind: Topic, Words: true}},
		Run:     a.with((*desk).guide),
	}
}

func (d *desk) guide() (Reply, error) {
	topic := topicKey(d.arg("topic"))
	if topic == "" {
		return contents(), nil
	}
	if p, ok := pageFor(topic); ok {
		return p.reply(d.table), nil
	}
	if s, ok := sourceFor(topic); ok {
		return sourceReply(s), nil
	}
	if r, ok := refusalFor(topic, d.table); ok {
		return d.refusalReply(r), nil
	}
	match := d.table.Find(topic)
	switch match.Outcome {
	case feedstock.Banned:
		return d.refusalReply(match.Refusal), nil
	case feedstock.Found, feedstock.Guessed:
		return d.materialReply(match.Feedstock), nil
	case feedstock.Ambiguous:
		return Reply{}, of("topic", d.whichMaterial(fault.New(fault.Ambiguous, "“%s” could be %s. Which one?", quote(topic), either(d.names(match.Near))), "", "", match.Near))
	}
	if p, ok := pageIn(topic); ok {
		return p.reply(d.table), nil
	}
	near := closestTopics(topic, 4)
	return Reply{}, of("topic", whichOf(fault.New(fault.Unknown, "The guide has no page “%s”. Closest: %s. All topics: guide", quote(topic), list(near, "or")), "", near))
}

// contents lists the topics, wrapped to the width of a page.
func contents() Reply {
	topics := make([]string, len(pages))
	for i, p := range pages {
		topics[i] = p.topic
	}
	return Reply{
		Headline: "The guide: say “guide” and a topic, a material (guide straw) or what you wonder about (guide meat).",
		Body:     []Block{{Title: "Topics", Lines: wrap(topics, pageWidth)}},
	}
}

func (p page) reply(table *feedstock.Table) Reply {
	r := Reply{Headline: p.gist, Body: []Block{{Lines: p.lines}}, Basis: p.sources}
	switch p.topic {
	case stayOutTopic:
		r.Body = append(r.Body, Block{Title: "Kept out", Lines: wrap(refusedTopics(table), pageWidth)})
	case sourcesTopic:
		r.Body = append(r.Body, Block{Title: "Sources by id", Lines: wrap(sourceIDs(), pageWidth)})
	}
	return r
}

// refusedTopics names the refusals shortly enough for one page.
func refusedTopics(table *feedstock.Table) []string {
	var out []string
	for _, r := range table.Refusals() {
		out = append(out, refusalTopic(r))
	}
	return out
}

func refusalTopic(r feedstock.Refusal) string { return strings.ReplaceAll(r.ID, "-", " ") }

func refusalFor(topic string, table *feedstock.Table) (feedstock.Refusal, bool) {
	for _, r := range table.Refusals() {
		if topic == refusalTopic(r) || topic == r.ID {
			return r, true
		}
	}
	return feedstock.Refusal{}, false
}

func sourceIDs() []string {
	var out []string
	for _, s := range feedstock.Sources() {
		out = append(out, s.ID)
	}
	return out
}

func (d *desk) refusalReply(r feedstock.Refusal) Reply {
	return Reply{
		Headline: d.in.Say("Please keep %s out of a shared heap.", r.In(d.in.Code())),
		Body:     []Block{{Lines: []string{d.in.Word(r.Reason)}}},
		Basis:    []string{r.Source},
	}
}

// sureWords say how directly a source was seen.
var sureWords = map[feedstock.Sureness]string{
	feedstock.Primary: "read in the table itself", feedstock.Secondary: "read in a good copy or an abstract",
	feedstock.Weak: "read, but on a weak page", feedstock.Memory: "from memory, not read", feedstock.Own: "our own choice, or the group's",
}

func sourceFor(topic string) (feedstock.Source, bool) {
	for _, s := range feedstock.Sources() {
		if strings.EqualFold(s.ID, topic) {
			return s, true
		}
	}
	return feedstock.Source{}, false
}

func sourceReply(s feedstock.Source) Reply {
	lines := []string{"How sure: " + sureWords[s.Sure] + "."}
	if s.Address != "" {
		lines = append(lines, "Where: "+s.Address)
	}
	return Reply{Headline: s.ID + ": " + s.Citation, Body: []Block{{Lines: lines}}}
}

// materialReply is the page of one material of the table.
func (d *desk) materialReply(f feedstock.Feedstock) Reply {
	r := Reply{Headline: fmt.Sprintf("%s: %s.", capital(f.Name), kindOf(f))}
	var lines []string
	for _, row := range []struct {
		label, format string
		p             feedstock.Property
	}{
		{"C:N", "about %.0f (%.0f to %.0f)", f.CN},
		{"Moisture", "about %.0f %% (%.0f to %.0f)", f.Moisture},
		{"Loose weight", "about %.0f kg/m³ (%.0f to %.0f)", f.Density},
	} {
		if row.label == "C:N" && f.Mineral {
			continue
		}
		lines = append(lines, row.label+": "+fmt.Sprintf(row.format, row.p.Typical, row.p.Low, row.p.High))
		r.Basis = append(r.Basis, row.label+": "+basisOf(row.p))
	}
	for _, h := range habits {
		if h.has(f) {
			lines = append(lines, h.words)
		}
	}
	r.Body = []Block{{Lines: lines}}
	if f.Caution != "" {
		r.Cautions = []string{d.sayCaution(f)}
	}
	return r
}

var kindWords = map[feedstock.Kind]string{
	feedstock.Green: "a green, rich in nitrogen", feedstock.Brown: "a brown, rich in carbon", feedstock.Manure: "a manure",
	feedstock.Activator: "rich in nitrogen, a little goes far", feedstock.Neutral: "neither green nor brown",
}

// kindOf says what a material is to a heap. Some go with the greens by custom
// and are short of nitrogen all the same, such as citrus peel, and the reverse.
func kindOf(f feedstock.Feedstock) string {
	switch aim := mix.DefaultAim().CN; {
	case f.Kind == feedstock.Green && f.CN.Typical > aim.High:
		return "fresh like a green, but short of nitrogen"
	case f.Kind == feedstock.Brown && f.CN.Typical < aim.Low:
		return "dry like a brown, with nitrogen of its own"
	}
	return kindWords[f.Kind]
}

// habits are how a material wants to be handled; common practice, no source.
var habits = []struct {
	has   func(feedstock.Feedstock) bool
	words string
}{
	{func(f feedstock.Feedstock) bool { return f.Matting }, "It mats: spread it in thin layers, or mix it in."},
	{func(f feedstock.Feedstock) bool { return f.Chop }, "It rots faster when it is chopped first."},
	{func(f feedstock.Feedstock) bool { return f.Coarse }, "It is coarse and lets air into the heap."},
	{func(f feedstock.Feedstock) bool { return f.Mineral }, "It is mineral and takes no part in carbon to nitrogen."},
}

func basisOf(p feedstock.Property) string {
	var out []string
	for _, s := range p.Sources() {
		out = append(out, s.Citation)
	}
	if len(out) == 0 {
		return p.Source
	}
	return strings.Join(out, "; ")
}

// wrap joins words with commas into lines of at most width characters.
func wrap(words []string, width int) []string {
	var lines []string
	line := ""
	for _, w := range words {
		if line != "" && len([]rune(line))+len([]rune(w))+3 > width {
			lines = append(lines, line+",")
			line = ""
		}
		if line != "" {
			line += ", "
		}
		line += w
	}
	return append(lines, line)
}
