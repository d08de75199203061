package commands

import (
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/commands/speech"
)

// Reply is an answer. All text is plain: adapters escape it for their
// platform. The headline is the answer; the rest says why and how sure.
type Reply struct {
	Headline string
	Body     []Block
	Cautions []string // at most one or two, short
	Basis    []string // sources and readings it rests on
	Actions  []Action
	Form     *Form // asks for what the answer needs first; nil: nothing
	Files    []File
	Private  bool        // only the caller should see it
	Quiet    bool        // need not be shown: the caller was told lately
	To       heap.Person // who is addressed and notified, their name before the headline; nobody when the ID is empty
	Replace  bool        // takes the place of the message whose button was pressed
	Language string      // the tag of what it is said in, such as "de"; English when empty
	Values   map[string]Value
	Err      *fault.Error // set when the call was not carried out; Headline repeats the message
}

// Labels are the words before the parts of a reply, in its language. Those that
// end a line's beginning have their colon.
type Labels struct{ TakeCare, RestsOn, CautionLine, RestsOnLine, AttachedLine string }

// Labels are what the parts of the reply are called.
func (r Reply) Labels() Labels {
	in := speech.Of(r.Language)
	return Labels{
		TakeCare: in.Word("Take care"), RestsOn: in.Word("Rests on"),
		CautionLine: in.Word("Caution:"), RestsOnLine: in.Word("Rests on:"), AttachedLine: in.Word("Attached:"),
	}
}

// Block is a titled run of lines.
type Block struct {
	Title string // may be empty
	Lines []string
}

// Action is a button: a label of at most 80 characters and the typed line it
// stands for, at most 90 bytes. Row begins a new row of buttons. Neighbours of
// the same Group are ways to answer the question that is its name: one is picked.
type Action struct {
	Label, Line string
	Row         bool
	Group       string
}

// File is an attachment; Alt says in words what it shows. Text is the same in
// characters of one width, for a terminal; it may be empty.
type File struct {
	Name, ContentType, Alt, Text string
	Data                         []byte
}

// Value is a number or word of the answer for programs. Value holds a float64
// or a string; Unit is "1" for ratios and shares, empty for words.
type Value struct {
	Value any    `json:"value"`
	Unit  string `json:"unit"`
}
