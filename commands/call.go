// Package commands is what the assistant can be asked: a catalogue of commands
// that turn a Call into a Reply. It knows no chat platform; adapters build
// their registrations, parsing and help from the same catalogue.
package commands

import (
	"context"
	"time"

	"heapside/calc/heap"
)

// Call is one question: who asks what, where and when. Args holds the options
// by name as the person wrote them; the handlers parse them.
type Call struct {
	Place     heap.Place
	By        heap.Person
	Organiser bool // the platform says so; people appointed in the garden's settings count too
	Now       time.Time
	Locale    string // language tag of the caller's screen, e.g. "de" or "pt-BR"; empty when not known
	Path      string // command and subcommand, e.g. "log temp"
	Args      map[string]string

	// Lacks are the rights that we would need to post here by ourselves and do not
	// have, as the platform calls them. An answer needs none of them.
	Lacks []string
}

// Command is one entry of the catalogue: either Subs or Run is set.
type Command struct {
	Name    string
	Summary string // one line, at most 100 characters
	Options []Option
	Subs    []Command
	Run     func(ctx context.Context, call *Call) (Reply, error)
}

// OptionKind says what an option holds, so that adapters can complete it.
type OptionKind uint8

// The option kinds. Every value travels as text: amounts, temperatures and
// times are parsed as people write them.
const (
	Text        OptionKind = iota
	Pick                   // one of Choices
	HeapName               // completes to the channel's heaps
	Material               // completes to known feedstocks, one or a list of them
	Symptom                // completes to what can be noticed of a heap
	Member                 // completes to the people on the rota
	JobKind                // completes to kinds of job, to be switched on or off
	Pest                   // completes to weeds, diseases and germs that were tried
	Lesson                 // completes to what reminders were taught
	Hint                   // any text, of which Choices are the likely ones
	Load                   // completes a list of amounts of materials
	Water                  // completes an amount of water
	Moment                 // completes when something happened
	EntryNumber            // completes to what the caller may take back
	ZoneName               // completes to time zones
	OpenJob                // completes to what was reminded of and is not done
	Person                 // completes to people who were met in the place
	Row                    // completes a row of people on the rota
	Topic                  // completes to pages of the guide and materials
)

// Option is one argument of a command.
type Option struct {
	Name     string
	Summary  string // at most 100 characters
	Kind     OptionKind
	Required bool
	Words    bool // takes the words of a typed line that no name:value claims
	Choices  []Choice
}

// Choice is a value a person can pick and the name it is shown under.
type Choice struct{ Name, Value string }
