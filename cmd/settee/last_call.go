package main

import (
	"strings"

	"coach.settee/store"
)

const (
	// mayMissLast is said of a store whose journal ends in a call that cannot be read.
	mayMissLast = "a call was being written when the program ended, or is damaged since: the last call may be missing"
	// lastUnread is the same at the start of the board, in a line of 80 columns.
	lastUnread = "the last call may be missing: it was cut short or is damaged; look at it"
)

// warningOf gives what is said at the start of the board: where the last call may be missing that, and then what else there
// is to say.
func warningOf(s *store.Store, other string) string {
	if !s.MayMissLast() {
		return other
	}
	return strings.TrimSuffix(lastUnread+"; "+other, "; ")
}
