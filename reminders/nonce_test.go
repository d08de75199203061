package reminders

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

func TestANonceNamesOnePost(t *testing.T) {
	p := duty.Post{Place: bays, Kind: duty.Digest, Day: monday}
	again := duty.Post{ID: 9, Place: bays, Kind: duty.Digest, Day: monday, Attempt: 3, Owner: "b", To: wren}
	assert.Equal(t, nonce(p), nonce(again))
	assert.Len(t, nonce(p), 24, "Discord API docs, Create Message: a nonce has up to 25 characters")

	others := []duty.Post{p, p, p, p, p}
	others[1].Place = bins
	others[2].Place = heap.Place{Guild: bays.Guild + bays.Channel}
	others[3].Kind = duty.Notice
	others[4].Day = monday.Add(1)
	seen := map[string]bool{}
	for _, o := range others {
		assert.False(t, seen[nonce(o)])
		seen[nonce(o)] = true
	}
}
