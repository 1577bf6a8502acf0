package store

import (
	"bytes"
	"fmt"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// rowWords names a row by its bucket and its key, in words as far as the key can be read.
func rowWords(name, key []byte) string {
	switch string(name) {
	case string(bucketCues):
		return "cue " + idWords(key)
	case string(bucketStudents):
		return "student " + idWords(key)
	case string(bucketSessions):
		return "session " + idWords(key)
	case string(bucketOpen):
		return "the list of open sessions, session " + idWords(key)
	case string(bucketLive):
		return "who is up in session " + idWords(key)
	case string(bucketPlayed):
		return historyWords(nil, key)
	case string(bucketForeign):
		if len(key) > 0 {
			if kind, ok := recordWords[model.RecordKind(key[0])]; ok {
				return "the place of " + kind + " " + idWords(key[1:])
			}
		}
		return "the place of a record whose id cannot be read"
	}
	what := map[string]string{
		string(bucketGames): "a game", string(bucketDeliveries): "a delivery", string(bucketActions): "the list of actions",
	}[string(name)]
	at, err := placeOf(key)
	switch {
	case what == "":
		return "the row " + idWords(key) + " of " + idWords(name)
	case err != nil:
		return what + " whose place cannot be read"
	}
	return fmt.Sprintf("%s of session number %d, as they were begun", what, at.session)
}

// historyWords names an entry of the students' histories, with the student's name where there is a transaction to read it in.
func historyWords(tx *bolt.Tx, key []byte) string {
	id, _, _ := bytes.Cut(key, []byte{0})
	who := "student " + idWords(id)
	if tx != nil {
		r, err := recordIn(tx, model.Ref{Kind: model.StudentRecord, ID: model.ID(id)})
		if s, ok := r.(model.Student); ok && err == nil {
			who = s.Name + " (" + who + ")"
		}
	}
	at, _, err := playedIn(key)
	if err != nil || len(key) != len(id)+1+16 {
		return "the games of " + who + ", an evening whose time cannot be read"
	}
	return "the games of " + who + ", the evening of " + at.Format(time.RFC3339)
}

// idWords gives an id, or another key of letters, where it can be read.
func idWords(key []byte) string {
	if model.ID(key).Validate() != nil {
		return "with an id that cannot be read"
	}
	return string(key)
}
