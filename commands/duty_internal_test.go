package commands

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/duty"
	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
)

// TestEveryJobCanBeClosed: a button can log what advice says logs it, or asks
// for what it cannot know, or nothing on record closes the job.
func TestEveryJobCanBeClosed(t *testing.T) {
	a := New(nil, nil)
	r := rand.New(rand.NewPCG(3, 4))
	logged := map[string]bool{}
	for range 3000 {
		for _, job := range advice.Find(advice.Case{State: scenario.Random(r)}) {
			if job.Done == "" {
				continue
			}
			path, args, err := a.parse(job.Done, nil)
			require.NoError(t, err, job.Done)
			checked, err := checkArgs(a.byPath[path], args)
			require.NoError(t, err, job.Done)
			require.Equal(t, len(args), len(checked), job.Done)
			logged[path] = true
		}
	}
	for path := range logged {
		_, byButton := loggers[path]
		assert.True(t, byButton || path == "heap finish", "%s is logged by no button", path)
	}
	for path := range loggers {
		assert.True(t, logged[path], "no job is logged by %s", path)
	}
}

// Own choice: one and a half times as long, a day more at least, two months at most.
func TestStretched(t *testing.T) {
	for days, want := range map[int]int{0: 1, 1: 2, 2: 3, 3: 5, 6: 9, 10: 15, 40: 60, 41: 60, 200: 60} {
		assert.Equal(t, want, stretched(days), "%d days", days)
	}
}

func FuzzRota(f *testing.F) {
	for _, said := range []string{"Odalys, Tobias, Wren", "odalys tobias wren", "Wren and then Odalys", "Wren Wren", "W", "Mary Ann > Wren", "<@7> <@8>", "@Wren", ", , and", "\u202eWren", "watering off", "off cover", "on"} {
		f.Add(said)
	}
	rota := duty.Rota{}
	for id, name := range map[string]string{"7": "Wren", "8": "Odalys", "9": "Tobias", "10": "Mary Ann", "11": "Mary"} {
		rota.Members = append(rota.Members, duty.Member{Person: heap.Person{ID: id, Name: name}})
	}
	f.Fuzz(func(t *testing.T, said string) {
		ordered, err := inOrder(rota, said)
		if err != nil {
			forPeople(t, said, err)
		}
		if len(ordered) != len(rota.Members) {
			t.Fatalf("%q leaves %d on the rota", said, len(ordered))
		}
		for _, m := range rota.Members {
			if !slices.ContainsFunc(ordered, func(o duty.Member) bool { return o.ID == m.ID }) {
				t.Fatalf("%q loses %s", said, m.Name)
			}
		}
		if _, err := findMember(rota, said); err != nil {
			forPeople(t, said, err)
		}
		if _, err := findKind(said); err != nil {
			forPeople(t, said, err)
		}
	})
}

func forPeople(t *testing.T, said string, err error) {
	t.Helper()
	if e, ok := fault.As(err); !ok || e.Message == "" {
		t.Fatalf("%q: %v is not for people", said, err)
	}
}
