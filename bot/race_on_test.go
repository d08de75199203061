//go:build race

package main

// underRace passes over what asks the model of every demo heap again and again: the race
// detector makes it ten times as slow, and nothing there runs at once.
const underRace = true
