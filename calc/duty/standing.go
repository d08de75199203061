package duty

import "time"

// Trouble is why a channel cannot be posted to.
type Trouble string

// The troubles.
const (
	NoTrouble Trouble = ""
	Refused   Trouble = "refused" // the channel takes no messages of ours; it may again
	Gone      Trouble = "gone"    // the channel or its guild is no more; nothing is tried
)

// Standing is how the reminders of a channel stand.
type Standing struct {
	Next    Occurrence // as it was last worked out; zero when there is none
	Trouble Trouble
	Since   time.Time // when the trouble began
	Unsaid  Unsaid
}

// Unsaid is the newest reminder of a channel where that one did not come; zero
// where it did.
type Unsaid struct {
	Due   time.Time // when it should have come
	Again time.Time // when it is tried again; zero when it was given up
}
