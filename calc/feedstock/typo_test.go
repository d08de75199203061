package feedstock_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/feedstock"
)

func TestDistance(t *testing.T) {
	for _, row := range []struct {
		a, b string
		want int
		why  string
	}{
		{"", "", 0, "nothing to do"},
		{"", "hay", 3, "three put in"},
		{"straw", "straw", 0, "the same"},
		{"leavse", "leaves", 1, "a swap is one slip, not two (Damerau 1964)"},
		{"cofee", "coffee", 1, "one left out"},
		{"kitten", "sitting", 3, "the usual textbook pair, from memory"},
		{"ca", "abc", 3, "no part is edited twice: the full distance would be 2, from memory"},
		{"grass", "straw", 4, "counted by hand"},
		{"é", "e", 1, "letters, not bytes"},
	} {
		t.Run(row.a+" "+row.b, func(t *testing.T) {
			assert.Equal(t, row.want, feedstock.Distance(row.a, row.b), row.why)
			assert.Equal(t, row.want, feedstock.Distance(row.b, row.a), "both ways")
		})
	}
}

// Word order, capitals, small words and marks do not change what is meant.
func TestFindIgnoresHowItIsSaid(t *testing.T) {
	table := feedstock.Default()
	for _, f := range table.All() {
		words := strings.Fields(f.Name)
		slices.Reverse(words)
		for _, said := range []string{
			strings.ToUpper(f.Name), "some of the " + f.Name, "*" + f.Name + "*!", "\u200f" + f.Name + " 🌱", strings.Join(words, " "),
		} {
			m := table.Find(said)
			assert.Equal(t, feedstock.Found, m.Outcome, said)
			assert.Equal(t, f.ID, m.Feedstock.ID, said)
		}
	}
}
