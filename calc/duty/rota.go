package duty

import (
	"time"

	"heapside/calc/heap"
)

// Rota are the people who take turns, in the order they agreed on. Whoever did
// the least comes next; the order decides between equals.
type Rota struct {
	Members  []Member  `json:"members,omitempty"`
	StandIns []StandIn `json:"stand_ins,omitempty"`
}

// Member is one person of the rota.
type Member struct {
	heap.Person
	Joined time.Time `json:"joined"`
	Start  float64   `json:"start"` // work taken as done on joining, so that a newcomer does not owe the past
	Away   []Span    `json:"away,omitempty"`
}

// Span are days from From until and with To.
type Span struct {
	From Date `json:"from"`
	To   Date `json:"to"`
}

// StandIn is one turn of For that By takes.
type StandIn struct {
	For heap.Person `json:"for"`
	By  heap.Person `json:"by"`
}

// MaxMembers is how many people a rota holds (own choice).
const MaxMembers = 50
