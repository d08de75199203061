package reminders

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestARestEndsWithTimeAndWhenTheClockIsSetBack(t *testing.T) {
	now := noon
	r := newRest(func() time.Time { return now })
	for name, end := range map[string]func(){
		"at its end":              func() { now = noon.Add(time.Hour) },
		"when the clock is back":  func() { now = noon.Add(-time.Second) },
		"when something is there": func() { r.end(bays) },
	} {
		now = noon
		r.give(bays, noon.Add(time.Hour))
		now = noon.Add(time.Minute)
		assert.True(t, r.holds(bays), name)
		assert.False(t, r.holds(bins), name)
		assert.Equal(t, 1, r.size(), name)
		end()
		assert.False(t, r.holds(bays), name)
		assert.Zero(t, r.size(), name)
	}
}
