package fault

import "fmt"

// Saying is an argument of a fault that is a text with words of its own in other
// languages: an English format and its arguments.
type Saying struct {
	Format string
	Args   []any
}

// Say returns a Saying.
func Say(format string, args ...any) Saying { return Saying{format, args} }

// String is the text in English.
func (s Saying) String() string { return fmt.Sprintf(s.Format, s.Args...) }

// Quoted is what somebody typed, which each language puts in its own quotation
// marks.
type Quoted string

// String is the text quoted as in English.
func (q Quoted) String() string { return "“" + string(q) + "”" }
