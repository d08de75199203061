package commands

import (
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/mix"
)

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
