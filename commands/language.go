package commands

import (
	"context"

	"heapside/calc/fault"
	"heapside/commands/speech"
)

// each is the choice of no language of the garden's own.
const each = "caller"

func (a *Assistant) gardenLanguageCommand() Command {
	return Command{Name: "language", Summary: "The language the assistant speaks here", Run: a.with((*desk).gardenLanguage), Options: []Option{
		{Name: "language", Summary: "the language of this garden; caller: each their own", Kind: Pick, Words: true, Required: true, Choices: languageChoices()}}}
}

func languageChoices() []Choice {
	choices := picks(each, "each in their own language")
	for _, l := range speech.Languages() {
		choices = append(choices, picks(l.Code, l.Name)...)
	}
	return choices
}

func (d *desk) gardenLanguage() (Reply, error) {
	g := d.garden
	g.Language = d.arg("language")
	if g.Language == each {
		g.Language = ""
		return d.saveGarden(g, "%s", speech.Of(d.call.Locale).Word("From now on each is answered in their own language, and reminders come in English."))
	}
	in := speech.Of(g.Language)
	if err := d.store.SaveGarden(d.ctx, g, d.call.By, d.call.Now); err != nil {
		return Reply{}, err
	}
	return Reply{Headline: in.Say("This garden speaks %s from now on.", in.Name()), Values: map[string]Value{"language": {in.Code(), ""}}}, nil
}

// language names what is spoken here.
func (d *desk) language() string {
	if d.garden.Language == "" {
		return d.in.Say("each in their own (%s)", "garden language de")
	}
	return speech.Of(d.garden.Language).Name()
}

// failed says a fault in the language of the call.
func (a *Assistant) failed(ctx context.Context, call Call, e *fault.Error) Reply {
	in := a.speech(ctx, call)
	r := failed(&fault.Error{Code: e.Code, Message: faultIn(in, e), Format: e.Format, Args: e.Args})
	r.Language = in.Code()
	return r
}

// faultIn is what a fault says in a language.
func faultIn(in *speech.Speech, e *fault.Error) string {
	if in.Knows(e.Format) {
		return sayingIn(in, e.Format, e.Args)
	}
	return e.Message
}

// sayingIn is a format in a language, with what is said within it.
func sayingIn(in *speech.Speech, format string, args []any) string {
	said := make([]any, len(args))
	for i, a := range args {
		switch a := a.(type) {
		case fault.Saying:
			said[i] = sayingIn(in, a.Format, a.Args)
		case fault.Quoted:
			said[i] = in.Say("“%s”", string(a))
		default:
			said[i] = a
		}
	}
	return in.Say(format, said...)
}

// speech is the language of a call: the garden's where it can be read, else the
// caller's.
func (a *Assistant) speech(ctx context.Context, call Call) *speech.Speech {
	language := ""
	if garden, err := a.store.Garden(ctx, call.Place); err == nil {
		language = garden.Language
	}
	return speech.Of(language, call.Locale)
}

// refusal is a fault as a part of another.
type refusal struct{ e *fault.Error }

// In implements speech.Said.
func (r refusal) In(s *speech.Speech) string { return faultIn(s, r.e) }

// String is what it says in English.
func (r refusal) String() string { return r.e.Message }

func failed(e *fault.Error) Reply {
	return Reply{Headline: e.Message, Private: true, Err: e}
}
