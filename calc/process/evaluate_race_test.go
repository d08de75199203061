//go:build race

package process

// underRace skips what only sums up numbers: the race detector makes it ten
// times as slow and has nothing to find there.
const underRace = true
