package discordtest

import (
	"encoding/json"
	"errors"
	"fmt"
)

// Form is a form that an interaction opened.
type Form struct {
	ID, Title string
	Inputs    []Input
	above     *Message // the message whose button opened it, if one did
}

// Input is a field of a form.
type Input struct {
	ID          string `json:"custom_id"`
	Label       string `json:"label"`
	Placeholder string `json:"placeholder"`
	Value       string `json:"value"`
	Required    *bool  `json:"required"` // the platform takes none for true
	Style       int    `json:"style"`
}

// The most that a field takes unless it says so. Source: discord-api-docs
// c98d64bc, components/reference.mdx.
const maxInput = 4000

// Form waits for the first answer, which has to be a form.
func (x *Exchange) Form() Form {
	x.p.t.Helper()
	if x.void || !x.p.await("a form", func() bool { return x.kind != 0 }) {
		return Form{}
	}
	x.p.mu.Lock()
	defer x.p.mu.Unlock()
	if x.form == nil {
		x.p.t.Errorf("the answer is of type %d, no form", x.kind)
		return Form{}
	}
	return *x.form
}

// Submit fills in a form and sends it. As in the client, there are only its own
// fields, what is required is filled in, and what is not said stays as it was.
func (p *Platform) Submit(by Caller, f Form, filled map[string]string) *Exchange {
	p.t.Helper()
	rows, used := []any{}, 0
	for _, in := range f.Inputs {
		value, said := filled[in.ID]
		if said {
			used++
		} else {
			value = in.Value
		}
		if value == "" && in.Required != nil && *in.Required || length(value) > maxInput {
			p.fail("the field %q is required, or %d characters are too many", in.ID, length(value))
			return &Exchange{p: p, void: true}
		}
		rows = append(rows, map[string]any{"type": 1, "id": 1, "components": []any{
			map[string]any{"type": 4, "id": 2, "custom_id": in.ID, "value": value},
		}})
	}
	if used != len(filled) {
		p.fail("not all of the fields %v are in the form %q", filled, f.Title)
		return &Exchange{p: p, void: true}
	}
	return p.interact(by, typeForm, map[string]any{"custom_id": f.ID, "components": rows}, f.above)
}

// sentForm is a form as it arrived.
type sentForm struct {
	ID    string `json:"custom_id"`
	Title string `json:"title"`
	Rows  []struct {
		Type   int     `json:"type"`
		Inputs []Input `json:"components"`
	} `json:"components"`
}

func readForm(data json.RawMessage) (f Form, err error) {
	var s sentForm
	if err := json.Unmarshal(data, &s); err != nil {
		return f, err
	}
	f.ID, f.Title = s.ID, s.Title
	for _, row := range s.Rows {
		f.Inputs = append(f.Inputs, row.Inputs...)
	}
	return f, nil
}

// checkForm holds the rules of forms that the description leaves out: what the
// documents say where the two differ, one field in a row, each once.
func checkForm(data json.RawMessage) error {
	var s sentForm
	if err := json.Unmarshal(data, &s); err != nil {
		return err
	}
	var errs []error
	if len(s.Rows) == 0 || len(s.Rows) > 5 {
		errs = append(errs, fmt.Errorf("a form of %d fields, 1 to 5 are possible", len(s.Rows)))
	}
	if length(s.ID) > 100 || length(s.Title) > 45 {
		errs = append(errs, errors.New("the form's id or title is too long"))
	}
	seen := map[string]bool{}
	for _, row := range s.Rows {
		if row.Type != 1 || len(row.Inputs) != 1 {
			errs = append(errs, errors.New("a field has a row of its own"))
			continue
		}
		in := row.Inputs[0]
		if in.Label == "" || in.ID == "" || seen[in.ID] || length(in.Label) > 45 || length(in.Placeholder) > 100 || length(in.Value) > maxInput {
			errs = append(errs, fmt.Errorf("the field %q has no label, a text that is too long, or an id that is there twice", in.ID))
		}
		seen[in.ID] = true
	}
	return errors.Join(errs...)
}
