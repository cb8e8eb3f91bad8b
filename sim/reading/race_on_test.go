//go:build race

package reading

const raceEnabled = true
