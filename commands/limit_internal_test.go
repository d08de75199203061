package commands

import (
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
)

func by(person, guild string, at time.Time) Call {
	return Call{By: heap.Person{ID: person}, Place: heap.Place{Guild: guild, Channel: "heaps"}, Now: at}
}

// takes makes n calls and counts what became of them.
func takes(l *limiter, n int, call Call) map[verdict]int {
	got := map[verdict]int{}
	for range n {
		got[l.take(call)]++
	}
	return got
}

func TestLimits(t *testing.T) {
	l := newLimiter(30, 300)
	for _, step := range []struct {
		name  string
		calls int
		call  Call
		want  map[verdict]int
	}{
		{"a flood is told once", 100, by("wren", "millrace", noon), map[verdict]int{taken: 30, overAlone: 1, overTold: 69}},
		{"others are not held up", 30, by("odalys", "millrace", noon), map[verdict]int{taken: 30}},
		{"it is the same person elsewhere", 1, by("wren", "elsewhere", noon), map[verdict]int{overTold: 1}},
		{"ten seconds are worth five commands", 6, by("wren", "millrace", noon.Add(10*time.Second)), map[verdict]int{taken: 5, overTold: 1}},
		{"after a minute all are back, and the next flood is told", 32, by("wren", "millrace", noon.Add(70*time.Second)), map[verdict]int{taken: 30, overAlone: 1, overTold: 1}},
		{"a clock set back gives and takes nothing", 1, by("wren", "millrace", noon), map[verdict]int{overTold: 1}},
		{"and time goes on from there", 1, by("wren", "millrace", noon.Add(2*time.Second)), map[verdict]int{taken: 1}},
	} {
		assert.Equal(t, step.want, takes(l, step.calls, step.call), step.name)
	}
	assert.Equal(t, TurnedAway{Person: 75}, l.turnedAway())
}

func TestGuildLimit(t *testing.T) {
	l := newLimiter(30, 300)
	for i := range 10 {
		assert.Equal(t, map[verdict]int{taken: 30}, takes(l, 30, by(fmt.Sprint(i), "millrace", noon)))
	}
	assert.Equal(t, map[verdict]int{overAll: 1, overTold: 4}, takes(l, 5, by("late", "millrace", noon)), "each is told once")
	assert.Equal(t, map[verdict]int{taken: 30}, takes(l, 30, by("tamsy", "elsewhere", noon)))
	assert.Equal(t, map[verdict]int{taken: 1}, takes(l, 1, by("late", "millrace", noon.Add(time.Second))))

	assert.Equal(t, TurnedAway{Group: 5}, l.turnedAway())

	var none *limiter
	assert.Zero(t, none.turnedAway())
	assert.Equal(t, map[verdict]int{taken: 1000}, takes(none, 1000, by("wren", "millrace", noon)))
}

// TestLimitsForget: however many people there are, few are remembered, and who
// goes on asking is.
func TestLimitsForget(t *testing.T) {
	l := newLimiter(1, 1e9)
	for i := range 5 * limitedAtOnce {
		l.take(by(fmt.Sprint(i), fmt.Sprint("guild ", i%7), noon))
		if i%1000 == 0 {
			l.take(by("wren", "millrace", noon))
		}
		require.LessOrEqual(t, len(l.now)+len(l.was), limitedAtOnce)
	}
	assert.Equal(t, overTold, l.take(by("wren", "millrace", noon)))
}

// TestLimitsAtOnce: many at once get no more than one after the other.
func TestLimitsAtOnce(t *testing.T) {
	l := newLimiter(30, 300)
	var let, told atomic.Int64
	var people sync.WaitGroup
	for i := range 16 {
		people.Go(func() {
			for range 100 {
				switch l.take(by(fmt.Sprint(i%8), "millrace", noon)) {
				case taken:
					let.Add(1)
				case overAlone:
					told.Add(1)
				}
			}
		})
	}
	people.Wait()
	assert.EqualValues(t, 8*30, let.Load())
	assert.EqualValues(t, 8, told.Load())
}

// BenchmarkLetIn is what rights and limits add to each call, in a garden with a
// dozen organisers and a dozen who may only read.
func BenchmarkLetIn(b *testing.B) {
	var people []heap.Person
	for i := range 24 {
		people = append(people, heap.Person{ID: string(rune('a' + i)), Name: "x"})
	}
	l := newLimiter(personCommands, guildCommands)
	call := Call{By: heap.Person{ID: "member"}, Place: heap.Place{Guild: "guild"}, Now: noon}
	d := &desk{garden: heap.Garden{Organisers: people[:12], ReadOnly: people[12:]}, call: &call}
	b.ReportAllocs()
	for b.Loop() {
		call.Now = call.Now.Add(3 * time.Second)
		if l.take(call) != taken || d.permit("log temp", nil) != nil {
			b.Fatal("refused")
		}
	}
}
