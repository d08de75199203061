//go:build race

package commands_test

// underRace passes over long conversations about heaps with a model: the race
// detector makes it ten times as slow, and a conversation runs nothing at once.
const underRace = true
