//go:build race

package process

// underRace passes over what learns many heaps: the race detector makes it ten
// times as slow, and nothing there runs at once.
const underRace = true
