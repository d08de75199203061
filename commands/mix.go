package commands

import (
	"encoding/json"
	"hash/fnv"
	"regexp"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/mix"
)

func (a *Assistant) mixCommand() Command {
	return Command{
		Name: "mix", Summary: "What to add to what arrived, so that it rots fast and does not smell",
		Options: []Option{
			{Name: "what", Summary: "what arrived, e.g. 2 buckets of grass clippings and 1 sack of leaves", Kind: Load, Words: true},
			{Name: "from", Summary: "what may be added: anything, stock, or materials such as straw, cardboard", Kind: Material},
			{Name: "heap", Summary: "a heap whose content is part of the mix", Kind: HeapName},
			{Name: "cn", Summary: "carbon to nitrogen to aim for, e.g. 30 or 25-35"},
			{Name: "moisture", Summary: "moisture in % to aim for, e.g. 55 or 50-60"},
		},
		Run: a.with((*desk).mix),
	}
}

// mix answers what the materials are together and what puts them right.
func (d *desk) mix() (Reply, error) {
	parts, notes, err := d.parts()
	if err != nil {
		return Reply{}, err
	}
	aim, err := d.aim()
	if err != nil {
		return Reply{}, err
	}
	answer, guesses, err := d.solve(mix.Request{Inputs: parts, Measures: d.local, Aim: aim, Seed: seedOf(parts)})
	if err != nil {
		return Reply{}, err
	}
	r := d.mixReply(answer, aim, append(notes, guesses...))
	r.Actions, err = d.addedActions(answer)
	return r, err
}

// parts reads what arrived, and the heap it goes on if one is named.
func (d *desk) parts() (parts []mix.Part, notes []string, err error) {
	if d.arg("what") == "" && d.arg("heap") == "" {
		return nil, nil, &unsaid{option: "what", sentence: fault.New(fault.Missing, "Please say what arrived, e.g. “mix 2 buckets of grass clippings and half a bucket of coffee grounds”, or name a heap: “mix heap:\"North Bay\"”.")}
	}
	if d.arg("heap") != "" {
		content, note, err := d.content()
		if err != nil {
			return nil, nil, err
		}
		parts, notes = append(parts, content), append(notes, note)
	}
	if d.arg("what") == "" {
		return parts, notes, nil
	}
	arrived, err := d.load("what")
	return append(parts, arrived.parts...), append(notes, arrived.notes...), err
}

// load is a list of amounts read and looked up: the items as said, as parts of
// a mix and as mass and volume; notes tell of corrected slips.
type load struct {
	items  []measure.Item
	parts  []mix.Part
	inputs []mix.Input
	notes  []string
}

// load reads the list of amounts of materials in an option.
func (d *desk) load(option string) (load, error) {
	l, err := d.readLoad(d.arg(option))
	if len(l.items) == 0 {
		return l, d.howMuch(option, err)
	}
	return l, of(option, err)
}

// readLoad reads a list of amounts of materials, in English and the language of
// the call; where its words leave a doubt so, in the other languages. A number
// such as 10,000 is ten thousand in some and ten in others: no doubt is worth
// taking it for another than this garden's people write.
func (d *desk) readLoad(text string) (load, error) {
	l, err := d.loadIn(d.local, text)
	if err == nil && len(l.notes) == 0 || wasRefused(err) || hasCode(err, fault.OutOfRange) || otherwise.MatchString(text) {
		return l, err
	}
	for _, language := range feedstock.Languages() {
		other, e := d.loadIn(reading(d.m, language), text)
		if e == nil && len(other.notes) == 0 || wasRefused(e) {
			return other, e
		}
	}
	return l, err
}

// otherwise are numbers that other languages read otherwise.
var otherwise = regexp.MustCompile(`\d[.,]\d{3}(?:\D|$)`)

func wasRefused(err error) bool { return hasCode(err, fault.Refused) }

func hasCode(err error, code fault.Code) bool {
	e, ok := fault.As(err)
	return ok && e.Code == code
}

// reading are the measures of a group as amounts are read in a language.
func reading(m measure.Measures, language string) measure.Measures {
	m.Style = measure.Style{Language: language}
	return m
}

// loadIn reads a list of amounts in one language and English.
func (d *desk) loadIn(m measure.Measures, text string) (l load, err error) {
	if l.items, err = m.ParseItems(text); err != nil {
		return load{}, err
	}
	for _, item := range l.items {
		f, note, err := d.material(item.Material, item.Said)
		if err != nil {
			return l, err
		}
		l.notes = appendNew(l.notes, note)
		l.parts = append(l.parts, partOf(item, f))
	}
	l.inputs, err = mix.Resolve(l.parts)
	return l, err
}

func partOf(item measure.Item, f feedstock.Feedstock) mix.Part {
	part := mix.Part{Feedstock: f}
	if v, ok := item.Amount.Volume(); ok {
		part.Volume = v
	} else {
		part.Mass, _ = item.Amount.Mass()
	}
	return part
}

func materialsOf(parts []mix.Part) []feedstock.Feedstock {
	out := make([]feedstock.Feedstock, len(parts))
	for i, p := range parts {
		out[i] = p.Feedstock
	}
	return out
}

// squeezeMoisture is the moisture (% wet basis) a squeeze class stands for; the
// edges are those of heap.Squeeze, the typical values and far ends our own choice.
var squeezeMoisture = map[heap.Squeeze]measure.Range{
	heap.Crumbles: {Low: 25, Typical: 35, High: 40},
	heap.Holds:    {Low: 40, Typical: 46, High: 50},
	heap.Drops:    {Low: 50, Typical: 55, High: 60},
	heap.Drips:    {Low: 60, Typical: 63, High: 66},
	heap.Runs:     {Low: 65, Typical: 70, High: 78},
}

// freshSqueezeDays is how long a squeeze test still speaks for today. Own choice.
const freshSqueezeDays = 7

// content folds what was put on a heap into one part of the mix. A recent
// squeeze test replaces the moisture that the materials had on arrival.
func (d *desk) content() (mix.Part, string, error) {
	h, err := d.heap("heap")
	if err != nil {
		return mix.Part{}, "", err
	}
	s, err := d.state(h)
	if err != nil {
		return mix.Part{}, "", err
	}
	parts := d.putIn(s)
	if len(parts) == 0 {
		return mix.Part{}, "", withLeads(fault.New(fault.Missing, "Nothing is on record as put on %s. Log it first: log add 2 buckets of grass clippings heap:\"%s\"", h.Name, h.Name), d.addAction(h))
	}
	note := d.in.Say("What is in %s is taken as it was put in; what has rotted away since is not counted.", h.Name)
	var moisture *measure.Range
	if s.Squeeze != "" && d.call.Now.Sub(s.SqueezeAt).Hours() <= freshSqueezeDays*24 {
		r := squeezeMoisture[s.Squeeze]
		moisture = &r
		note += " " + d.in.Say("Its moisture is from the squeeze test %s.", d.ago(s.SqueezeAt))
	}
	return mix.Content(contentOf+h.Name, parts, moisture), note, nil
}

// contentOf begins the name of a part that is the content of a heap.
const contentOf = "what is in "

// called is the name of a material or of the content of a heap, for a sentence.
func (d *desk) called(f feedstock.Feedstock) string {
	if of, isContent := strings.CutPrefix(f.Name, contentOf); isContent {
		return d.in.Say("what is in %s", of)
	}
	return f.In(d.in.Code())
}

// calledThen is the name of a material that is on record, as it was called then
// where it has another name now.
func (d *desk) calledThen(a heap.Added) string {
	if f, ok := d.table.ByID(a.Material); ok && f.Name == a.Name {
		return d.called(f)
	}
	return a.Name
}

// putIn is what was put on a heap, as parts of a mix.
func (d *desk) putIn(s heap.State) []mix.Part {
	var parts []mix.Part
	for _, added := range s.Content {
		if f, ok := d.table.ByID(added.Material); ok && added.MassKg > 0 {
			parts = append(parts, mix.Part{Feedstock: f, Mass: measure.Exact(added.MassKg)})
		}
	}
	return parts
}

// minDegradable is the share of a material's organic matter that must rot within
// a season before it is suggested for its carbon or nitrogen: woody pieces
// balance a mix on paper only. Own choice, after the judgement on available
// carbon in Solomon 1993 (half-inch twigs take years).
const minDegradable = 0.40

// easyToGet is the least feedstock.Everyday of what is suggested first.
const easyToGet = 2

// additions are the greens and browns that may be suggested, without what is in
// the mix already. Manures and activators bring cautions of their own, so they
// come in only when somebody names them.
func (d *desk) additions(parts []mix.Part) (easy, all []feedstock.Feedstock) {
	given := map[string]bool{}
	for _, p := range parts {
		given[p.Feedstock.ID] = true
	}
	for _, f := range d.table.All() {
		if f.Everyday == 0 || given[f.ID] || (f.Kind != feedstock.Green && f.Kind != feedstock.Brown) {
			continue
		}
		all = append(all, f)
		if f.Everyday >= easyToGet && f.Degradable.Typical >= minDegradable {
			easy = append(easy, f)
		}
	}
	return easy, all
}

// solve asks for recipes from what "from" allows. From anything, materials that
// are easy to get come first; the whole table is searched when they fail. The
// notes tell of corrected slips in "from".
func (d *desk) solve(request mix.Request) (answer mix.Answer, notes []string, err error) {
	easy, all := d.additions(request.Inputs)
	request.Everything = easy
	if d.fromAnything() {
		request.Candidates = unlimited(easy)
	} else if request.Candidates, notes, err = d.candidates(); err != nil {
		return answer, nil, err
	}
	answer, err = mix.Solve(request)
	if err != nil || len(answer.Recipes) > 0 {
		return d.worthwhile(answer), notes, err
	}
	if d.fromAnything() {
		request.Candidates = unlimited(all)
	} else if answer.Fix != nil {
		return answer, notes, nil
	}
	request.Everything = all
	answer, err = mix.Solve(request)
	return answer, notes, err
}

// Own choice: how little of the whole nobody can tell from nothing when it is said
// in buckets, and how often the load must hold without it.
const (
	trifle    = 0.03
	rightAsIs = 0.7
)

// worthwhile leaves out what would put right less than the amounts are known to,
// unless the question brought an aim of its own.
func (d *desk) worthwhile(answer mix.Answer) mix.Answer {
	if answer.Before.Holds < rightAsIs || d.arg("cn") != "" || d.arg("moisture") != "" {
		return answer
	}
	addedL, baseL := answer.Recipes[0].WaterL, 0.0
	for _, a := range answer.Recipes[0].Additions {
		addedL += a.VolumeL
	}
	for _, i := range answer.Inputs {
		baseL += i.VolumeL
	}
	if addedL > 0 && addedL <= trifle*baseL {
		answer.Recipes = []mix.Recipe{{After: answer.Before}}
	}
	return answer
}

func unlimited(fs []feedstock.Feedstock) []mix.Candidate {
	out := make([]mix.Candidate, len(fs))
	for i, f := range fs {
		out[i] = mix.Candidate{Feedstock: f}
	}
	return out
}

func (d *desk) fromAnything() bool {
	from := strings.ToLower(d.arg("from"))
	return from == "" || from == "anything" || from == "everything"
}

// candidates are the stock, or the materials that "from" names, with a note for
// each that was guessed.
func (d *desk) candidates() (out []mix.Candidate, notes []string, err error) {
	if strings.EqualFold(d.arg("from"), "stock") {
		out, err = d.stocked(func(feedstock.Feedstock) bool { return true })
		if err != nil {
			return nil, nil, err
		}
		if len(out) == 0 {
			return nil, nil, withLeads(fault.New(fault.Missing, "Nothing is in stock here. Say what there is, e.g. “stock set 3 sacks of dry leaves”, or leave out from:stock."), Action{Label: "What is on hand", Line: "stock set"})
		}
		return out, nil, nil
	}
	if slices.Contains([]string{"nothing", "none"}, strings.ToLower(d.arg("from"))) || isWater(d.arg("from")) {
		return nil, nil, nil // water alone
	}
	joints := strings.NewReplacer(" "+d.in.Word("and")+" ", ",", " "+d.in.Word("or")+" ", ",")
	for _, words := range splitNames(joints.Replace(d.arg("from"))) {
		if isWater(words) {
			continue // it may always be added
		}
		f, note, err := d.material(words, words)
		if err != nil {
			return nil, nil, of("from", err)
		}
		notes = appendNew(notes, note)
		out = append(out, mix.Candidate{Feedstock: f})
	}
	if len(out) == 0 {
		return nil, nil, fault.New(fault.Missing, "“%s” names no material to add. Say for example from:\"straw, cardboard\", or from:stock.", quote(d.arg("from")))
	}
	return out, notes, nil
}

func splitNames(s string) []string {
	return strings.FieldsFunc(strings.NewReplacer(" and ", ",", " or ", ",").Replace(s), func(r rune) bool {
		return r == ',' || r == ';' || r == '+' || r == '\n'
	})
}

// seedOf makes the draws depend on the materials and amounts only, not on their
// order, so that the same question has the same answer everywhere.
func seedOf(parts []mix.Part) uint64 {
	lines := make([]string, len(parts))
	for i, p := range parts {
		// Encoding a string and six numbers cannot fail.
		line, _ := json.Marshal([]any{p.Feedstock.ID, p.Volume, p.Mass})
		lines[i] = string(line)
	}
	slices.Sort(lines)
	h := fnv.New64a()
	for _, line := range lines {
		h.Write([]byte(line))
	}
	return h.Sum64()
}
