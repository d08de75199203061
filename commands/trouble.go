package commands

import (
	"fmt"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/mix"
	"heapside/calc/trouble"
	"heapside/calc/water"
	"heapside/commands/speech"
)

func (a *Assistant) troubleCommand() Command {
	return Command{Name: "trouble", Summary: "Something is wrong: likely causes from the record, and what to do",
		Options: []Option{
			{Name: "what", Summary: "what you notice, e.g. smells of ammonia; left out, a list to tap", Kind: Symptom, Words: true},
			{Name: "heap", Summary: "which heap; may be left out when there is one", Kind: HeapName},
		},
		Run: a.with((*desk).trouble)}
}

func (d *desk) trouble() (Reply, error) {
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	if d.arg("what") == "" {
		return d.symptoms(h), nil
	}
	shown := trouble.Find(d.arg("what"))
	if len(shown) == 0 {
		return Reply{}, fault.New(fault.NotUnderstood, "“%s” names nothing that I know can go wrong. Say what you notice: %s.", quote(d.arg("what")), speech.Joined{Words: symptomNames(), Last: "or"})
	}
	p, err := d.patient(h)
	if err != nil {
		return Reply{}, err
	}
	return d.troubleReply(p, trouble.Diagnose(p.Case, shown...))
}

// symptoms offers what can be noticed, to tap.
func (d *desk) symptoms(h heap.Heap) Reply {
	r := Reply{Headline: d.in.Say("What is wrong with %s? Tap what you notice, or say it.", h.Name)}
	for _, s := range trouble.Symptoms() {
		if line := fmt.Sprintf("trouble %s heap:\"%s\"", s.Code, h.Name); len(line) <= maxActionLine {
			r.Actions = append(r.Actions, Action{Label: capital(d.in.Word(s.Name)), Line: line})
		}
	}
	return r
}

// symptomNames are the symptoms as they are typed.
func symptomNames() []string {
	var names []string
	for _, s := range trouble.Symptoms() {
		names = append(names, s.Name)
	}
	return names
}

// patient is a heap with something wrong, and what the model makes of it.
type patient struct {
	trouble.Case
	heap heap.Heap
}

func (d *desk) patient(h heap.Heap) (patient, error) {
	p := patient{Case: trouble.Case{Measures: d.local, Table: d.table}, heap: h}
	sky := d.sky(h.Started)
	for _, day := range sky.Days {
		if !day.Ahead && day.Told {
			p.AirC = &day.MeanC
		}
	}
	v, err := d.follow(h, sky)
	if _, forPeople := fault.As(err); forPeople {
		p.State, err = d.state(h)
		return p, err
	}
	if err != nil {
		return p, err
	}
	now := v.model.now
	p.State, p.Condition = v.state, &now
	return p, nil
}

func (d *desk) troubleReply(p patient, found trouble.Diagnosis) (Reply, error) {
	var noticed []string
	for _, s := range found.Symptoms {
		noticed = append(noticed, d.in.Word(s.Name))
	}
	first := found.Findings[0]
	r := Reply{
		Headline: d.in.Say("%s %s: %s %s.", p.heap.Name, speech.Joined{Words: noticed, Last: "and"}, d.in.Word(string(first.Likely)), d.in.Word(first.Name)),
		Values:   map[string]Value{"heap": {p.heap.Name, ""}},
	}
	if found.Doubt != "" {
		r.Body = append(r.Body, Block{Lines: []string{found.Doubt}})
	}
	told := map[trouble.Need]bool{}
	for i, f := range found.Findings {
		amount := ""
		if !told[f.Need] { // the same need takes the same amount
			var err error
			if amount, err = d.remedyAmount(p, f.Need, r.Values, i == 0); err != nil {
				return Reply{}, err
			}
			told[f.Need] = true
		}
		r.Body = append(r.Body, Block{Title: fmt.Sprintf("%d. %s", i+1, d.in.Say("%s: %s", capital(d.in.Word(string(f.Likely))), d.in.Word(f.Name))), Lines: d.findingLines(f, amount)})
		r.Values[fmt.Sprintf("cause.%d", i+1)] = Value{f.Code, ""}
		r.Values[fmt.Sprintf("cause.%d.share", i+1)] = Value{f.Share, "1"}
		for _, source := range strings.Split(f.Source, "; ") {
			r.Basis = appendNew(r.Basis, source)
		}
		if f.Caution != "" && len(r.Cautions) == 0 && i < 2 {
			r.Cautions = []string{f.Caution}
		}
	}
	if found.Tell != "" {
		r.Body = append(r.Body, Block{Title: d.in.Word("To tell the first two apart"), Lines: []string{found.Tell}})
	}
	r.Basis = append(r.Basis, "which cause is likelier: own choice, weighed by what is on record")
	r.Actions = d.troubleActions(p, found)
	return r, nil
}

// findingLines are the evidence and the remedy of one cause.
func (d *desk) findingLines(f trouble.Finding, amount string) []string {
	var lines []string
	if len(f.For) > 0 {
		lines = append(lines, d.in.Say("For it: %s.", d.clauses(f.For)))
	}
	if len(f.Against) > 0 {
		lines = append(lines, d.in.Say("Against it: %s.", d.clauses(f.Against)))
	}
	remedy := make([]string, len(f.Remedy))
	for i, step := range f.Remedy {
		remedy[i] = d.in.Word(step)
	}
	lines = append(lines, strings.Join(remedy, " "))
	return appendNew(lines, amount)
}

// clauses are parts of one sentence, at least one, parted by semicolons.
func (d *desk) clauses(said []string) string {
	all := said[0]
	for _, one := range said[1:] {
		all = d.in.Say("%s; %s", all, one)
	}
	return all
}

// troubleActions log what was noticed and what was done.
func (d *desk) troubleActions(p patient, found trouble.Diagnosis) []Action {
	var actions []Action
	add := func(label, line string) {
		if line += fmt.Sprintf(" heap:\"%s\"", p.heap.Name); len(line) <= maxActionLine {
			actions = append(actions, Action{Label: label, Line: line})
		}
	}
	for _, s := range found.Symptoms {
		if s.Log != "" {
			add(d.in.Say("Log: %s", strings.TrimPrefix(s.Log, "log ")), s.Log)
			break
		}
	}
	if done := found.Findings[0].Done; done != "" {
		_, word, _ := strings.Cut(done, " ")
		add(d.in.Say("Done: %s", word), done)
	}
	return actions
}

// What a remedy aims for. A soggy heap is mixed for its water, within any C:N
// that a heap can be aimed at; one that smells of ammonia for the wider C:N that
// holds for a mix. Own choice.
var (
	soggyCN = mix.Window{Low: aimableCN.Low, Aim: 30, High: 60}
	greenCN = mix.Window{Low: 20, Aim: 30, High: 40}
)

// remedyAmount says how much a remedy takes, for the heap as it is now: from
// what is in stock where that is enough. It is empty where no amount helps, or
// too little is known.
func (d *desk) remedyAmount(p patient, need trouble.Need, values map[string]Value, first bool) (string, error) {
	content, ok := d.asItIs(p)
	if need == trouble.Nothing || !ok {
		return "", nil
	}
	set := func(name string, value any, unit string) {
		if first {
			values[name] = Value{value, unit}
		}
	}
	if need == trouble.Water {
		litres := d.wantedWater(p, content)
		if litres <= 0 {
			return "", nil
		}
		set("remedy.water", litres, "l")
		return d.in.Say("About %s would bring it to 55 to 58 %% water.", d.local.SayWater(litres)), nil
	}
	recipe, stocked, err := d.remedyMix(content, need)
	if err != nil || recipe == nil || nothing(*recipe) {
		return "", err
	}
	for _, a := range recipe.Additions {
		set("remedy."+a.Feedstock.ID+".volume", a.VolumeL, "l")
	}
	now := d.local.SayBulk(content.Volume.Typical)
	if stocked {
		return d.in.Say("About %s (in stock), for what is in it now: %s.", d.sayRecipe(*recipe), now), nil
	}
	return d.in.Say("About %s, for what is in it now: %s.", d.sayRecipe(*recipe), now), nil
}

// wantedWater is the litres to water a dry heap with: the model's, or those
// that take what is in it to the middle of 50-60 % (AgriFutures, Water).
func (d *desk) wantedWater(p patient, content mix.Part) float64 {
	litres := 0.0
	if p.Condition != nil {
		litres = p.Condition.WaterL.Mid
	}
	if litres <= 0 {
		b := mix.Blend{}.Add(content)
		litres = water.Wanted(b.DryKg, b.WaterKg, 0.55)
	}
	step := d.m.WaterStep(litres)
	return float64(int(litres/step+0.5)) * step
}

// asItIs is what is in a heap now, as one part of a mix: what went in, less what
// the model has rotted away, in today's volume, as wet as the squeeze test or
// the model says. False when too little is on record.
func (d *desk) asItIs(p patient) (mix.Part, bool) {
	parts := d.putIn(p.State)
	if len(parts) == 0 || p.Condition == nil {
		return mix.Part{}, false
	}
	m := p.Condition.Moisture
	moisture := measure.Range{Low: 100 * m.Low, Typical: 100 * m.Mid, High: 100 * m.High}
	if r, ok := squeezeMoisture[p.State.Squeeze]; ok && d.call.Now.Sub(p.State.SqueezeAt).Hours() <= freshSqueezeDays*24 {
		moisture = r
	}
	lost := p.Condition.Lost
	content := mix.Content("what is in "+p.heap.Name, parts, &moisture)
	return mix.Rotted(content, measure.Range{Low: lost.Low, Typical: lost.Mid, High: lost.High}, p.State.VolumeL), content.Volume.Typical > 0
}

// remedyMix is the first recipe that puts a heap right with browns or greens,
// from stock where that is enough; nil when there is none.
func (d *desk) remedyMix(content mix.Part, need trouble.Need) (recipe *mix.Recipe, stocked bool, err error) {
	kind, aim := feedstock.Brown, mix.DefaultAim()
	aim.CN = greenCN
	switch {
	case need == trouble.Greens:
		kind = feedstock.Green
	case content.Feedstock.Moisture.Typical > aim.Moisture.High:
		aim.CN = soggyCN
	}
	of := func(f feedstock.Feedstock) bool { return f.Kind == kind }
	have, err := d.stocked(of)
	if err != nil {
		return nil, false, err
	}
	easy, _ := d.additions([]mix.Part{content})
	easy = slices.DeleteFunc(easy, func(f feedstock.Feedstock) bool { return !of(f) })
	for _, candidates := range [][]mix.Candidate{have, unlimited(easy)} {
		if len(candidates) == 0 {
			continue
		}
		parts := []mix.Part{content}
		answer, err := mix.Solve(mix.Request{Inputs: parts, Candidates: candidates, Measures: d.m, Aim: aim, Seed: seedOf(parts)})
		if err != nil {
			return nil, false, err
		}
		if len(answer.Recipes) > 0 {
			return &answer.Recipes[0], len(have) > 0 && &candidates[0] == &have[0], nil
		}
	}
	return nil, false, nil
}

// stocked are the materials in stock of some sort, as candidates.
func (d *desk) stocked(of func(feedstock.Feedstock) bool) ([]mix.Candidate, error) {
	stock, err := d.store.Stock(d.ctx, d.call.Place)
	if err != nil {
		return nil, err
	}
	var out []mix.Candidate
	for _, s := range stock {
		if f, ok := d.table.ByID(s.Material); ok && of(f) {
			out = append(out, mix.Candidate{Feedstock: f, MaxL: s.VolumeL})
		}
	}
	return out, nil
}
