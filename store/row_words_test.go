package store

import (
	"testing"

	"coach.settee/model"
)

// Keys are bytes that no coach can read; what they say is told in words.
func TestARowIsNamedInWords(t *testing.T) {
	at := place{3, ownSerial + 12}
	played := playedKey("ada-1", nine, at)
	for _, c := range []struct {
		bucket, key []byte
		want        string
	}{
		{bucketStudents, []byte("ada-1"), "student ada-1"},
		{bucketSessions, []byte("monday"), "session monday"},
		{bucketCues, []byte("\x00\xff"), "cue with an id that cannot be read"},
		{bucketOpen, []byte("monday"), "the list of open sessions, session monday"},
		{bucketLive, []byte("monday"), "who is up in session monday"},
		{bucketGames, at.key(), "a game of session number 3, as they were begun"},
		{bucketDeliveries, at.key(), "a delivery of session number 3, as they were begun"},
		{bucketDeliveries, at.key()[:5], "a delivery whose place cannot be read"},
		{bucketActions, actionKey(3, 7), "the list of actions of session number 3, as they were begun"},
		{bucketForeign, foreignKey(model.GameRecord, "g-9"), "the place of game g-9"},
		{bucketForeign, []byte{200}, "the place of a record whose id cannot be read"},
		{bucketPlayed, played, "the games of student ada-1, the evening of 2026-11-25T21:00:00Z"},
		{bucketPlayed, played[:12], "the games of student ada-1, an evening whose time cannot be read"},
		{bucketPlayed, nil, "the games of student with an id that cannot be read, an evening whose time cannot be read"},
		{[]byte("other"), []byte{1}, "the row with an id that cannot be read of other"},
	} {
		if got := rowWords(c.bucket, c.key); got != c.want {
			t.Errorf("%s %q is %q, want %q", c.bucket, c.key, got, c.want)
		}
	}
}
