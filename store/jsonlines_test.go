package store

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// sampleExport is written by hand, without this package: it has every key of every type of line.
const sampleExport = "two-evenings.jsonl"

func sample(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "exports", sampleExport))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func sampleLines(t testing.TB) [][]byte {
	t.Helper()
	lines := bytes.SplitAfter(sample(t), []byte("\n"))
	return lines[1 : len(lines)-1]
}

func TestALineReadIsWrittenTheSame(t *testing.T) {
	for i, line := range sampleLines(t) {
		r, err := decodeLine(line)
		if err != nil {
			t.Errorf("line %d: %v", i+2, err)
			continue
		}
		if got := encodeLine(nil, r); !bytes.Equal(got, line) {
			t.Errorf("line %d:\n got %swant %s", i+2, got, line)
		}
	}
}

func TestTheSampleHasEveryKey(t *testing.T) {
	all := string(sample(t))
	for kind, keys := range keysByKind() {
		for _, key := range keys {
			found := false
			for _, line := range strings.Split(all, "\n") {
				found = found || strings.HasPrefix(line, `{"type":"`+kind+`"`) && strings.Contains(line, `"`+key+`":`)
			}
			if !found {
				t.Errorf("no %s has %s", kind, key)
			}
		}
	}
}

func keysByKind() map[string][]string {
	return map[string][]string{
		"cue": keys(cueFields), "game": keys(gameFields),
		"student":  slices.Concat(keys(studentFields), keys(spareFields), keys(intakeFields)),
		"session":  slices.Concat(keys(sessionFields), keys(seatFields), keys(aimFields)),
		"delivery": append(keys(deliveryFields), keys(lineFields)...),
	}
}

func keys[T any](fields []field[T]) []string {
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = f.key
	}
	return out
}

func TestWhatIsUnknownIsNotWritten(t *testing.T) {
	at := time.Date(2026, 3, 4, 19, 0, 0, 987, time.FixedZone("", 3600))
	for name, c := range map[string]struct {
		record model.Record
		want   string
	}{
		"a student with nothing chosen": {
			model.Student{ID: "s", Name: "Bo", Hand: model.RightHand},
			`{"type":"student","id":"s","name":"Bo","hand":"right","minor":false,"archived":false}`,
		},
		"an average of 0 is known": {
			model.Student{ID: "s", Name: "Bo", Hand: model.LeftHand, Average: model.Known(0), Goal: 17},
			`{"type":"student","id":"s","name":"Bo","hand":"left","average":0,"goal":8.5,"minor":false,"archived":false}`,
		},
		"a student with own lines for spares": {
			model.Student{ID: "s", Name: "Bo", Hand: model.RightHand, SpareLines: []model.SpareLine{
				{Pin: 7, Line: model.Line{Arrows: model.Known(15.5)}},
				{Pin: 10, Line: model.Line{Arrows: model.Known(21.0), Slide: model.Known(32.0)}},
			}},
			`{"type":"student","id":"s","name":"Bo","hand":"right","minor":false,"archived":false,` +
				`"spare_lines":[{"pin":7,"arrows":15.5},{"pin":10,"arrows":21,"slide":32}]}`,
		},
		"a student of whom an intake was begun": {
			model.Student{
				ID: "s", Name: "Bo", Hand: model.RightHand, Balls: []string{"plastic"}, BallUp: "plastic", AverageOn: "dry lanes",
				Intake: model.Intake{On: "2026-03-04", Timing: model.OnTime},
			},
			`{"type":"student","id":"s","name":"Bo","hand":"right","balls":["plastic"],"minor":false,"archived":false,` +
				`"average_on":"dry lanes","ball_up":"plastic","intake":{"on":"2026-03-04","timing":"on time"}}`,
		},
		"a session on lanes of which something is known": {
			model.Session{
				ID: "e", At: at, Pairs: []model.Pair{{7, 8}}, Oiled: at, PatternKind: "house", Before: "a league",
				Roster: []model.Seat{{Student: "s", Lane: 7, Order: 1, Sentence: "Well held.", Watched: model.AxisSet(0).With(model.Release)}},
			},
			`{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":false,"roster":[{"student":"s",` +
				`"lane":7,"order":1,"alternate":false,"out":false,"sentence":"Well held.","watched":["release"]}],` +
				`"pattern_kind":"house","oiled":"2026-03-04T18:00:00Z","before":"a league"}`,
		},
		"a session with nobody in it": {
			model.Session{ID: "e", At: at, Pairs: []model.Pair{{7, 8}}},
			`{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":false,"roster":[]}`,
		},
		"a seat with a line aimed at on one lane": {
			model.Session{ID: "e", At: at, Pairs: []model.Pair{{7, 8}}, Roster: []model.Seat{{
				Student: "s", Lane: 7, Order: 1, Aimed: [2]model.Line{{}, {Arrows: model.Known(0.0), Slide: model.Known(20.5)}},
			}}},
			`{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":false,"roster":[{"student":"s",` +
				`"lane":7,"order":1,"alternate":false,"out":false,"aimed":[{"lane":8,"arrows":0,"slide":20.5}]}]}`,
		},
		"an unseen delivery": {
			model.Delivery{
				ID: "d", Game: "g", Seq: 1, At: at, Lane: 7, Frame: 1, Ball: 1, Weights: model.Weights{40, 30, 20, 10},
				Bar: model.GradeAMinus, Level: model.New, After: tenpin.Standing(0), Pins: model.Known(10),
			},
			`{"type":"delivery","id":"d","game":"g","seq":1,"at":"2026-03-04T18:00:00Z","lane":7,"frame":1,"ball":1,` +
				`"weights":[40,30,20,10],"bar":"A-","level":"new","seen":false,"dead":false,"standing":[],"pins":10,"foul":false}`,
		},
		"a seen delivery of a warm-up without pins": {
			model.Delivery{
				ID: "d", Game: "g", Seq: 1, At: at, Lane: 7, Weights: model.Weights{40, 30, 20, 10},
				Bar: model.GradeAMinus, Level: model.New, Seen: true, HitBoards: model.Known(math.Copysign(0, -1)),
			},
			`{"type":"delivery","id":"d","game":"g","seq":1,"at":"2026-03-04T18:00:00Z","lane":7,"letters":["","","",""],` +
				`"touched":false,"weights":[40,30,20,10],"bar":"A-","level":"new","seen":true,"dead":false,"foul":false,"hit_boards":0}`,
		},
	} {
		t.Run(name, func(t *testing.T) {
			if got := string(encodeLine(nil, c.record)); got != c.want+"\n" {
				t.Errorf("got  %swant %s", got, c.want)
			}
		})
	}
}

// TestDecimals holds the numbers to the shortest decimals that read back, as strconv documents them.
func TestDecimals(t *testing.T) {
	for want, x := range map[string]float64{
		"8.5": 8.5, "5": 5, "10": 1e1, "-0.5": -0.5, "0.1": 0.1, "0": math.Copysign(0, -1), "16.123456789": 16.123456789,
	} {
		if got := string(appendNumber(nil, x)); got != want {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
	}
}

func TestALineMayBeWrittenFreely(t *testing.T) {
	strict := `{"type":"student","id":"s","name":"Bo","hand":"right","average":172,"balls":["<&>","é"],"minor":false,"archived":false}`
	for name, line := range map[string]string{
		"keys in another order": `{"archived":false,"minor":false,"id":"s","balls":["<&>","é"],"hand":"right","average":172,"name":"Bo","type":"student"}`,
		"blanks":                " {\t\"type\" : \"student\",\"id\":\"s\", \"name\":\"Bo\",\"hand\":\"right\",\"average\":172,\"balls\":[ \"<&>\" , \"é\" ],\"minor\":false,\"archived\":false } \r\n",
		"escapes":               `{"type":"student","id":"s","name":"\u0042o","hand":"right","average":172,"balls":["\u003c\u0026>","\u00e9"],"minor":false,"archived":false}`,
		"another decimal":       `{"type":"student","id":"s","name":"Bo","hand":"right","average":1.72e2,"balls":["<&>","é"],"minor":false,"archived":false}`,
	} {
		t.Run(name, func(t *testing.T) {
			r, err := decodeLine([]byte(line))
			if err != nil {
				t.Fatal(err)
			}
			if got := string(encodeLine(nil, r)); got != strict+"\n" {
				t.Errorf("got  %swant %s", got, strict)
			}
		})
	}
}

func TestALineAimedAtBelongsToItsLane(t *testing.T) {
	const line = `{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":false,"roster":[` +
		`{"aimed":[{"arrows":15,"lane":8},{"slide":34,"lane":7}],"student":"s","lane":8,"order":1,"alternate":false,"out":false}]}`
	r, err := decodeLine([]byte(line))
	if err != nil {
		t.Fatal(err)
	}
	want := [2]model.Line{{Slide: model.Known(34.0)}, {Arrows: model.Known(15.0)}}
	if got := r.(model.Session).Roster[0].Aimed; got != want {
		t.Errorf("aimed at %+v, want %+v", got, want)
	}
}

func TestEscapesOfTheUpperPlanesAreRead(t *testing.T) {
	r, err := decodeLine([]byte(`{"type":"cue","id":"c","axis":"target","text":"\\ud83c \ud83c\udfb3 \ufffd"}`))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := r.(model.Cue).Text, "\\ud83c \U0001F3B3 \uFFFD"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
