package commands

import (
	"context"
	"slices"
	"strings"

	"heapside/calc/fault"
)

// Form asks for several things at once. Filled in, it is the call of Line with
// each field as an option, which Assistant.Fill makes. An adapter that can open
// a form does so in place of the reply that carries it; the reply says the same
// for all others.
type Form struct {
	Title  string // at most 45 characters
	Line   string // the typed line that the fields belong to, at most 90 bytes
	Fields []Field
}

// Field is one thing a form asks for. Label has at most 45 characters, Example
// at most 100.
type Field struct {
	Option   string // the option it fills
	Label    string
	Example  string // shown while nothing is written
	Value    string // what stands in it at first
	Required bool
	Long     bool // takes several lines
}

// Limits of a form. Source: discord-api-docs, components/reference.mdx; five
// fields is the smaller of two numbers given there and in the description.
const (
	maxFormTitle  = 45
	maxFieldLabel = 45
	maxExample    = 100
	maxFields     = 5
)

// form makes a form of a line, or none when the line is too long for a button.
func form(title, line string, fields ...Field) *Form {
	if len(line) > maxActionLine || len(fields) > maxFields {
		return nil
	}
	for i, f := range fields {
		fields[i].Label, fields[i].Example = clip(f.Label, maxFieldLabel), clip(f.Example, maxExample)
	}
	return &Form{Title: clip(title, maxFormTitle), Line: line, Fields: fields}
}

// Fill answers a form that was filled in: line is that of the form, filled its
// fields by option. Blank fields count as not given. Of a form that is refused
// nothing is lost: the answer repeats it as a line to correct.
func (a *Assistant) Fill(ctx context.Context, call Call, line string, filled map[string]string) Reply {
	path, args, err := a.parse(line, a.heapNames(ctx, call.Place))
	if e, ok := fault.As(err); ok {
		return a.failed(ctx, call, e)
	}
	for option, value := range filled {
		if strings.TrimSpace(value) != "" {
			args[option] = clip(oneLine(clean(value)), maxArg+1) // one too many is refused, not cut
		}
	}
	call.Path, call.Args = path, args
	r := a.Do(ctx, call)
	if r.Err != nil {
		in := a.speech(ctx, call)
		r.Body = append(r.Body, Block{Title: in.Word("You wrote"), Lines: []string{typed(path, args, a.byPath[path].Options)}})
		if again := (Action{Label: in.Word(fillAgain), Line: line}); len(line) <= maxActionLine && !slices.Contains(r.Actions, again) {
			r.Actions = append([]Action{again}, r.Actions...)
		}
	}
	return r
}
