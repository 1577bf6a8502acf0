package store

import (
	"encoding/hex"
	"testing"
	"time"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
)

// What was written before seats had lines to aim at: a session's row, and an action that changed that session.
const (
	olderSession = "01000000070000000907c0ccc39a0dd8c1c49a0d085061726b73696465039005f00101070802010361646107010a717569657420686561" +
		"6400000a323032362d30332d31310202626f080200000e6f6e652d73746570206472696c6c001b6e07dc"
	olderAction = "0103616461001241646120676f657320746f206c616e65203800020d01530000005407c0ccc39a0dd8c1c49a0d085061726b7369646503" +
		"9005f00101070802010361646107010a7175696574206865616400000a323032362d30332d31310202626f080200000e6f6e652d7374657020" +
		"6472696c6c001204ca0a99e8"
)

// older is the session in both of them.
func older() model.Session {
	return model.Session{
		ID: "S", At: time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC), Place: "Parkside", PatternFt: model.Known(41.0),
		ArrowsFt: model.Known(15.0), Pairs: []model.Pair{{7, 8}}, Rotate: true, Block: true,
		Closed: time.Date(2026, 3, 4, 20, 5, 0, 0, time.UTC),
		Roster: []model.Seat{
			{Student: "ada", Lane: 7, Order: 1, Alternate: true, Cue: "quiet head", Next: "2026-03-11"},
			{Student: "bo", Lane: 8, Order: 2, Out: true, Homework: "one-step drill"},
		},
	}
}

func TestASessionWithoutLinesToAimAtIsRead(t *testing.T) {
	row, err := decodeSessionRow([]byte("S"), bytesOf(t, olderSession))
	if diff := cmp.Diff(older(), row.Session); diff != "" || err != nil || row.number != 7 || row.floor != 9 {
		t.Errorf("number %d, floor %d, %v: %s", row.number, row.floor, err, diff)
	}
	if got := hex.EncodeToString(row.encode([]byte("S"))); got != olderSession {
		t.Errorf("it is written as %s", got)
	}

	want := model.Entry{N: 3, Student: "ada", What: "Ada goes to lane 8", Was: []model.Was{
		{Ref: older().Ref(), Record: older()}, {Ref: model.Ref{Kind: model.GameRecord, ID: "S-4"}},
	}}
	entry, err := decodeEntry("S", 3, actionKey(7, 3), bytesOf(t, olderAction))
	if diff := cmp.Diff(want, entry); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
}

// An older program takes the fields that it knows: those of the lines come after all that it reads.
func TestTheLinesToAimAtComeLast(t *testing.T) {
	s := older()
	s.Roster[1].Aimed[0] = model.Line{Slide: model.Known(34.0), Arrows: model.Known(17.0)}
	value := sessionRow{s, 7, 9}.encode([]byte("S"))
	before := bytesOf(t, olderSession)
	const flags = 1 + 4 + 4
	before[flags] |= sessionAimed
	if n := len(before) - 4; string(value[:n]) != string(before[:n]) {
		t.Errorf("%x does not begin with\n%x", value, before[:n])
	}
}

func bytesOf(t *testing.T, digits string) []byte {
	t.Helper()
	b, err := hex.DecodeString(digits)
	if err != nil {
		t.Fatal(err)
	}
	return b
}
