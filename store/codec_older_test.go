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

// What was written before students had own lines for spares: a student's row, and an action that changed that student.
const (
	olderStudent = "010509416461204d617273680202ac0103090bff0a141e280240530f05688028020c64756c6c20626c756520313507706c61737469630a" +
		"66726565207377696e67096c656674206b6e65653c0d6c696b6573206e756d626572734d6f5f9a"
	olderFocus = "0103616461001841646120776f726b73206f6e3a2066726565207377696e6700010903616461000000590509416461204d617273680202" +
		"ac0103090bff0a141e280240530f05688028020c64756c6c20626c756520313507706c61737469630a66726565207377696e67096c656674206b" +
		"6e65653c0d6c696b6573206e756d62657273bffea1fc"
)

// olderAda is the student in both of them.
func olderAda() model.Student {
	return model.Student{
		ID: "ada", Name: "Ada Marsh", Hand: model.LeftHand, Style: model.TwoHand, Average: model.Known(172),
		Level: model.Regular, Bar: model.GradeB, Goal: 11, Weights: model.Weights{10, 20, 30, 40}, Tone: model.Plain,
		Start: model.Letters{model.B, model.NoLetter, model.A, model.C}, Watched: model.AllAxes,
		SlideOffset: model.Known(6.5), RevRPM: model.Known(320.0), Balls: []string{"dull blue 15", "plastic"},
		Focus: "free swing", Limits: "left knee", LoadLimit: 60, Minor: true, Notes: "likes numbers",
	}
}

func TestAStudentWithoutSpareLinesIsRead(t *testing.T) {
	key := []byte("ada")
	got, err := decodePlain(key, bytesOf(t, olderStudent), decodeStudent)
	if diff := cmp.Diff(olderAda(), got); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
	e := newEncoder()
	encodeStudent(e, olderAda())
	if got := hex.EncodeToString(e.seal(key)); got != olderStudent {
		t.Errorf("it is written as %s", got)
	}

	want := model.Entry{N: 3, Student: "ada", What: "Ada works on: free swing", Was: []model.Was{
		{Ref: olderAda().Ref(), Record: olderAda()},
	}}
	entry, err := decodeEntry("S", 3, actionKey(7, 3), bytesOf(t, olderFocus))
	if diff := cmp.Diff(want, entry); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
}

func TestTheSpareLinesComeLast(t *testing.T) {
	s := olderAda()
	s.SpareLines = []model.SpareLine{{Pin: 10, Line: model.Line{Slide: model.Known(32.0), Arrows: model.Known(21.0)}}}
	e := newEncoder()
	encodeStudent(e, s)
	before := bytesOf(t, olderStudent)
	before[1] |= studentSpares
	if n := len(before) - 4; string(e.b[:n]) != string(before[:n]) {
		t.Errorf("%x does not begin with\n%x", e.b, before[:n])
	}
	later, err := decodePlain([]byte("ada"), e.seal([]byte("ada")), decodeStudent)
	if diff := cmp.Diff(s, later); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
}

// What was written before students had an intake and sessions the state of the lanes: a student's row, a session's row, and
// an action that changed both.
const (
	olderSpares = "010d09416461204d617273680202ac0103090bff0a141e280240530f05688028020c64756c6c20626c756520313507706c61737469630a66" +
		"726565207377696e67096c656674206b6e65653c0d6c696b6573206e756d62657273010a03d00280041e77b90d"
	olderAimed = "0100000007000000090fc0ccc39a0dd8c1c49a0d085061726b73696465039005f00101070802010361646107010a717569657420686561640" +
		"0000a323032362d30332d31310202626f080200000e6f6e652d73746570206472696c6c000000039002a004000812acd3"
	olderBoth = "0103616461001841646120776f726b73206f6e3a2066726565207377696e6700020d01530000005c0fc0ccc39a0dd8c1c49a0d085061726b7" +
		"3696465039005f00101070802010361646107010a7175696574206865616400000a323032362d30332d31310202626f080200000e6f6e652d737" +
		"46570206472696c6c000000039002a004000903616461000000600d09416461204d617273680202ac0103090bff0a141e280240530f056880280" +
		"20c64756c6c20626c756520313507706c61737469630a66726565207377696e67096c656674206b6e65653c0d6c696b6573206e756d626572730" +
		"10a03d0028004775f04bb"
)

// olderLines gives the student and the session in them.
func olderLines() (model.Student, model.Session) {
	student, session := olderAda(), older()
	student.SpareLines = []model.SpareLine{{Pin: 10, Line: model.Line{Slide: model.Known(32.0), Arrows: model.Known(21.0)}}}
	session.Roster[1].Aimed[0] = model.Line{Slide: model.Known(34.0), Arrows: model.Known(17.0)}
	return student, session
}

func TestWhatHasNoIntakeAndNoLaneStateIsRead(t *testing.T) {
	student, session := olderLines()
	got, err := decodePlain([]byte("ada"), bytesOf(t, olderSpares), decodeStudent)
	if diff := cmp.Diff(student, got); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
	e := newEncoder()
	encodeStudent(e, student)
	if got := hex.EncodeToString(e.seal([]byte("ada"))); got != olderSpares {
		t.Errorf("the student is written as %s", got)
	}

	row, err := decodeSessionRow([]byte("S"), bytesOf(t, olderAimed))
	if diff := cmp.Diff(session, row.Session); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
	if got := hex.EncodeToString(row.encode([]byte("S"))); got != olderAimed {
		t.Errorf("the session is written as %s", got)
	}

	want := model.Entry{N: 3, Student: "ada", What: "Ada works on: free swing", Was: []model.Was{
		{Ref: session.Ref(), Record: session}, {Ref: student.Ref(), Record: student},
	}}
	entry, err := decodeEntry("S", 3, actionKey(7, 3), bytesOf(t, olderBoth))
	if diff := cmp.Diff(want, entry); diff != "" || err != nil {
		t.Errorf("%v: %s", err, diff)
	}
}

// An older program takes the fields that it knows, each alone being enough to have the others written.
func TestTheIntakeAndTheLaneStateComeLast(t *testing.T) {
	for name, change := range map[string]func(*model.Student){
		"average on": func(s *model.Student) { s.AverageOn = "dry lanes" },
		"ball up":    func(s *model.Student) { s.BallUp = "plastic" },
		"intake":     func(s *model.Student) { s.Intake = model.Intake{On: "2026-03-04", Hurts: "left knee"} },
	} {
		s, _ := olderLines()
		change(&s)
		e := newEncoder()
		encodeStudent(e, s)
		beginsWith(t, name, e.b, bytesOf(t, olderSpares), 1, studentMore)
		later, err := decodePlain([]byte("ada"), e.seal([]byte("ada")), decodeStudent)
		if diff := cmp.Diff(s, later); diff != "" || err != nil {
			t.Errorf("%s: %v: %s", name, err, diff)
		}
	}
	for name, change := range map[string]func(*model.Session){
		"pattern kind": func(s *model.Session) { s.PatternKind = "house" },
		"oiled":        func(s *model.Session) { s.Oiled = time.Date(2026, 3, 4, 16, 0, 0, 0, time.UTC) },
		"before":       func(s *model.Session) { s.Before = "a league" },
		"sentence":     func(s *model.Session) { s.Roster[1].Sentence = "Well held." },
		"watched":      func(s *model.Session) { s.Roster[0].Watched = model.AllAxes },
	} {
		_, s := olderLines()
		change(&s)
		value := sessionRow{s, 7, 9}.encode([]byte("S"))
		beginsWith(t, name, value, bytesOf(t, olderAimed), 1+4+4, sessionMore)
		later, err := decodeSessionRow([]byte("S"), value)
		if diff := cmp.Diff(s, later.Session); diff != "" || err != nil {
			t.Errorf("%s: %v: %s", name, err, diff)
		}
	}
}

// beginsWith holds a value to beginning with what an older one has before its checksum, but for a bit of the flags.
func beginsWith(t *testing.T, name string, value, before []byte, flags int, bit byte) {
	t.Helper()
	before[flags] |= bit
	if n := len(before) - 4; string(value[:n]) != string(before[:n]) {
		t.Errorf("%s: %x does not begin with\n%x", name, value, before[:n])
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
