package store

import (
	"strings"
	"testing"
)

const (
	goodStudent  = `{"type":"student","id":"s","name":"Bo","hand":"right","average":172,"goal":5,"weights":[25,30,25,20],"start":["A","A","A","A"],"watched":["balance"],"minor":false,"archived":false}`
	goodSpares   = `{"type":"student","id":"s","name":"Bo","hand":"right","minor":false,"archived":false,"spare_lines":[{"pin":7,"arrows":15},{"pin":10,"arrows":21,"slide":32,"breakpoint":12,"breakpoint_ft":40}]}`
	goodIntake   = `{"type":"student","id":"s","name":"Bo","hand":"right","balls":["plastic"],"minor":false,"archived":false,"ball_up":"plastic","intake":{"on":"2026-03-04","motion":"swing","timing":"on time"}}`
	goodOiled    = `{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":true,"roster":[{"student":"s","lane":7,"order":1,"alternate":true,"out":false,"watched":["target"]}],"oiled":"2026-03-04T16:00:00Z","before":"a league"}`
	goodSession  = `{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":true,"roster":[{"student":"s","lane":7,"order":1,"alternate":true,"out":false,"next":"2026-03-11"}]}`
	goodAimed    = `{"type":"session","id":"e","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":true,"roster":[{"student":"s","lane":7,"order":1,"alternate":true,"out":false,"next":"2026-03-11","aimed":[{"lane":7,"arrows":17},{"lane":8,"arrows":15,"breakpoint":8,"breakpoint_ft":43}]}]}`
	goodGame     = `{"type":"game","id":"g","session":"e","student":"s","number":1,"kind":"drill","length":10,"pins":[10]}`
	goodDelivery = `{"type":"delivery","id":"d","game":"g","seq":1,"at":"2026-03-04T18:00:00Z","lane":7,"frame":1,"ball":1,"letters":["A","A","B","A"],"touched":true,"weights":[25,30,25,20],"bar":"A-","level":"regular","seen":true,"dead":false,"standing":[10],"pins":9,"foul":false,"side":"in","side_boards":2,"hit_boards":1.5,"aimed":{"arrows":17},"note":"n"}`
	goodCue      = `{"type":"cue","id":"c","axis":"release","text":"soft"}`
)

func TestTheLinesTheRefusalsStartFromAreGood(t *testing.T) {
	for _, line := range []string{goodStudent, goodSpares, goodIntake, goodSession, goodOiled, goodAimed, goodGame, goodDelivery, goodCue} {
		if _, err := decodeLine([]byte(line)); err != nil {
			t.Errorf("%s\n%v", line, err)
		}
	}
}

func TestALineIsRefused(t *testing.T) {
	for name, c := range map[string]struct{ line, old, new, why string }{
		"an empty line":               {"", "", "", "line is empty"},
		"half a line":                 {goodCue, `,"text":"soft"}`, `,"te`, "ends too early"},
		"no JSON":                     {goodCue, `"axis":`, `axis:`, "not JSON"},
		"a comma too many":            {goodCue, `"soft"}`, `"soft",}`, "not JSON"},
		"two objects":                 {goodCue, `"soft"}`, `"soft"}{}`, "after the object"},
		"a list":                      {goodCue, goodCue, `[1]`, "an object belongs here"},
		"no type":                     {goodCue, `"type":"cue",`, ``, "type is missing"},
		"an unknown type":             {goodCue, `"cue"`, `"clue"`, `"clue" is none of`},
		"a type that is no text":      {goodCue, `"cue"`, `7`, "text belongs here"},
		"a repeated type":             {goodCue, `"id"`, `"type":"cue","id"`, "type is there twice"},
		"an unknown key":              {goodCue, `"axis"`, `"axes"`, `"axes" is unknown`},
		"a key in capitals":           {goodCue, `"axis"`, `"Axis"`, `"Axis" is unknown`},
		"a repeated key":              {goodCue, `"id":"c"`, `"id":"c","id":"c"`, "id is there twice"},
		"a repeated key escaped":      {goodCue, `"id":"c"`, `"id":"c","\u0069d":"c"`, "id is there twice"},
		"a missing key":               {goodCue, `"axis":"release",`, ``, "axis is missing"},
		"null":                        {goodCue, `"soft"`, `null`, "text: a text belongs here, not null"},
		"a text in a list":            {goodCue, `"soft"`, `["soft"]`, "not a list"},
		"an id with a blank":          {goodCue, `"id":"c"`, `"id":"c c"`, "none of A-Z"},
		"an id too long":              {goodCue, `"id":"c"`, `"id":"` + strings.Repeat("c", 41) + `"`, "41 characters"},
		"an empty id":                 {goodCue, `"id":"c"`, `"id":""`, "0 characters"},
		"bytes that are no UTF-8":     {goodCue, `soft`, "s\xfft", "UTF-8"},
		"half of a surrogate pair":    {goodCue, `soft`, `\ud83c`, "half of a pair"},
		"the other half":              {goodCue, `soft`, `\udfb3`, "half of a pair"},
		"a half before other text":    {goodCue, `soft`, `\ud83c\u0041\\`, "half of a pair"},
		"a control character":         {goodCue, `soft`, `so\u001bft`, "control character"},
		"a raw control character":     {goodCue, `soft`, "so\x1bft", "not JSON"},
		"a line separator":            {goodCue, `soft`, "so\u2028ft", "control character"},
		"a turn of direction":         {goodCue, `soft`, "so\u202eft", "control character"},
		"a text too long":             {goodCue, `soft`, strings.Repeat("a", 2001), "2001 characters"},
		"an axis there is not":        {goodCue, `release`, `power`, "no axis"},
		"an empty name":               {goodStudent, `"Bo"`, `" "`, "name is empty"},
		"a hand there is not":         {goodStudent, `right`, `both`, "none of right, left"},
		"an average over 300":         {goodStudent, `172`, `301`, "average: 301 is out of range: 0 to 300"},
		"an average in halves":        {goodStudent, `172`, `172.5`, "no whole number"},
		"an average in words":         {goodStudent, `172`, `"172"`, "a number belongs here, not a text"},
		"a number beyond all":         {goodStudent, `172`, `1e999`, "out of range"},
		"a number of many digits":     {goodStudent, `172`, strings.Repeat("9", 100_000), "out of range"},
		"a goal in thirds":            {goodStudent, `"goal":5`, `"goal":5.3`, "in halves"},
		"a goal of none":              {goodStudent, `"goal":5`, `"goal":0`, "in halves"},
		"weights that miss":           {goodStudent, `[25,30,25,20]`, `[25,30,25,21]`, "sum to 101"},
		"three weights":               {goodStudent, `[25,30,25,20]`, `[25,55,20]`, "needs 4"},
		"five letters":                {goodStudent, `["A","A","A","A"]`, `["A","A","A","A","A"]`, "longer than 4"},
		"a letter there is not":       {goodStudent, `["A","A","A","A"]`, `["A","A","A","E"]`, "no letter"},
		"an axis watched twice":       {goodStudent, `["balance"]`, `["balance","balance"]`, "there twice"},
		"no axis watched":             {goodStudent, `["balance"]`, `[]`, "no axis is named"},
		"no starting letter":          {goodStudent, `["A","A","A","A"]`, `["","","",""]`, "no letter is chosen"},
		"an eleventh pin's line":      {goodSpares, `"pin":10`, `"pin":11`, "spare_lines: pin: 11 is out of range"},
		"a line without its pin":      {goodSpares, `"pin":10,`, ``, "spare_lines: pin is missing"},
		"a pin with two lines":        {goodSpares, `"pin":10`, `"pin":7`, "the 7 pin has two own lines"},
		"the order of the pins":       {goodSpares, `"pin":10`, `"pin":6`, "in the order of the pins"},
		"a pin's line of nothing":     {goodSpares, `,"arrows":15`, ``, "no line is named"},
		"a distance of no board":      {goodSpares, `"breakpoint":12,`, ``, "without its board"},
		"an own line too high":        {goodSpares, `"slide":32`, `"slide":46`, "spare_lines: slide: 46 is out of range"},
		"an own line on a lane":       {goodSpares, `"pin":7`, `"lane":7`, `"lane" is unknown`},
		"a ball that is not carried":  {goodIntake, `"ball_up":"plastic"`, `"ball_up":"steel"`, `"steel" is up, and is none`},
		"an intake without its date":  {goodIntake, `"on":"2026-03-04",`, ``, "intake: on is missing"},
		"an intake on no day":         {goodIntake, `03-04`, `02-30`, "intake: on"},
		"a motion there is not":       {goodIntake, `"swing"`, `"fling"`, `"fling" is none of swing, mixed, throw`},
		"a timing in another word":    {goodIntake, `"on time"`, `"on-time"`, "none of early, on time, late"},
		"an intake of another key":    {goodIntake, `"motion"`, `"level"`, `"level" is unknown`},
		"lanes oiled at no time":      {goodOiled, `16:00:00Z`, `16:00`, "in UTC to the second"},
		"no axis watched tonight":     {goodOiled, `["target"]`, `[]`, "no axis is named"},
		"who bowled before as a list": {goodOiled, `"a league"`, `["a league"]`, "not a list"},
		"a time in another zone":      {goodSession, `18:00:00Z`, `19:00:00+01:00`, "in UTC to the second"},
		"a time with a fraction":      {goodSession, `18:00:00Z`, `18:00:00.5Z`, "in UTC to the second"},
		"a day there is not":          {goodSession, `2026-03-04`, `2026-02-30`, "is no date that there is"},
		"a time before all":           {goodSession, `2026-03-04T18`, `0001-01-01T00`, "is before 1970"},
		"a meeting that is no day":    {goodSession, `2026-03-11`, `next week`, "2026-03-11"},
		"a pair that is none":         {goodSession, `[7,8]`, `[8,9]`, "a pair is an odd lane"},
		"a pair of three":             {goodSession, `[7,8]`, `[7,8,9]`, "longer than 2"},
		"a seat on no pair":           {goodSession, `"lane":7`, `"lane":9`, "none of the evening's pairs"},
		"a line on another pair":      {goodAimed, `{"lane":8`, `{"lane":9`, "roster: aimed: lane 9 is not of the pair 7/8"},
		"a lane aimed at twice":       {goodAimed, `{"lane":8`, `{"lane":7`, "roster: aimed: lane 7 is there twice"},
		"a line without its lane":     {goodAimed, `{"lane":8,"arrows"`, `{"arrows"`, "roster: aimed: lane is missing"},
		"a line beyond the boards":    {goodAimed, `"arrows":17`, `"arrows":46`, "out of range"},
		"a breakpoint before the oil": {goodAimed, `43`, `19`, "out of range"},
		"a line with a speed":         {goodAimed, `"arrows":17`, `"speed_mph":17`, `"speed_mph" is unknown`},
		"an aim that is no list":      {goodAimed, `[{"lane":7,"arrows":17},{"lane":8,"arrows":15,"breakpoint":8,"breakpoint_ft":43}]`, `{}`, "a list belongs here"},
		"a seat without its order":    {goodSession, `"order":1,`, ``, "roster: order is missing"},
		"a type in a seat":            {goodSession, `"order":1,`, `"order":1,"type":"seat",`, `"type" is unknown`},
		"a lane beyond the house":     {goodSession, `"lane":7`, `"lane":201`, "out of range"},
		"a drill of too many":         {goodGame, `"length":10`, `"length":501`, "out of range"},
		"an empty rack":               {goodGame, `[10]`, `[]`, "no pin is named"},
		"an eleventh pin":             {goodGame, `[10]`, `[11]`, "out of range"},
		"a game with a length":        {goodGame, `drill`, `game`, "only a drill has"},
		"a kind there is not":         {goodGame, `drill`, `match`, "none of game, drill, warmup"},
		"no letters though seen":      {goodDelivery, `"letters":["A","A","B","A"],`, ``, "letters is missing"},
		"letters though unseen":       {goodDelivery, `"seen":true`, `"seen":false`, "letters does not go with the rest"},
		"touched though unseen": {
			goodDelivery, `"letters":["A","A","B","A"],"touched":true,"weights":[25,30,25,20],"bar":"A-","level":"regular","seen":true`,
			`"touched":true,"weights":[25,30,25,20],"bar":"A-","level":"regular","seen":false`, "touched does not go with the rest",
		},
		"a frame without its ball":       {goodDelivery, `"ball":1,`, ``, "ball is missing"},
		"an eleventh frame":              {goodDelivery, `"frame":1`, `"frame":11`, "out of range"},
		"a pin standing twice":           {goodDelivery, `"standing":[10]`, `"standing":[10,10]`, "pin 10 is there twice"},
		"eleven pins down":               {goodDelivery, `"pins":9`, `"pins":11`, "out of range"},
		"a foul that counts":             {goodDelivery, `"foul":false`, `"foul":true`, "pins of a foul do not count"},
		"boards of no side":              {goodDelivery, `"side":"in",`, ``, "a side that is not given"},
		"a hit beyond the lane":          {goodDelivery, `"hit_boards":1.5`, `"hit_boards":21`, "out of range"},
		"a board beyond the lane":        {goodDelivery, `"arrows":17`, `"arrows":46`, "aimed: arrows: 46 is out of range"},
		"an unknown key in a line":       {goodDelivery, `"arrows":17`, `"arrow":17`, `aimed: the key "arrow" is unknown`},
		"a flag that is a number":        {goodDelivery, `"dead":false`, `"dead":0`, "true or false belongs here"},
		"a seq of none":                  {goodDelivery, `"seq":1`, `"seq":0`, "out of range"},
		"an object nested without end":   {goodDelivery, `{"arrows":17}`, strings.Repeat(`{"arrows":`, 100_000), "a number belongs here"},
		"a list nested without end":      {goodDelivery, `[10]`, strings.Repeat(`[`, 100_000), "a number belongs here"},
		"nesting without end, no type":   {goodCue, goodCue, `{"a":` + strings.Repeat(`[`, 100_000), "not JSON"},
		"a level there is not":           {goodDelivery, `regular`, `pro`, "none of new"},
		"a bar there is not":             {goodDelivery, `"bar":"A-"`, `"bar":"A+"`, "no shot grade"},
		"an own call there is not":       {goodDelivery, `"note":"n"`, `"own":""`, "no shot grade"},
		"a side that is neither":         {goodDelivery, `"in"`, `""`, "none of in, out"},
		"a note that is no text":         {goodDelivery, `"n"`, `1`, "note: a text belongs here, not a number"},
		"a hit in boards as a text":      {goodDelivery, `1.5`, `"1.5"`, "a number belongs here"},
		"a number with a sign before it": {goodDelivery, `1.5`, `+1.5`, "not JSON"},
	} {
		t.Run(name, func(t *testing.T) {
			line := strings.Replace(c.line, c.old, c.new, 1)
			if line == c.line && c.line != "" {
				t.Fatal("the line is not changed")
			}
			r, err := decodeLine([]byte(line))
			if err == nil {
				t.Fatalf("taken: %+v", r)
			}
			if !strings.Contains(err.Error(), c.why) {
				t.Errorf("the reason is %q, want it to say %q", err, c.why)
			}
			if len(err.Error()) > 300 {
				t.Errorf("the reason has %d bytes", len(err.Error()))
			}
		})
	}
}

func FuzzDecodeLine(f *testing.F) {
	for _, line := range sampleLines(f) {
		f.Add(line)
	}
	f.Add([]byte(`{"type":"cue","id":"c","axis":"target","text":"\ud83c"}`))
	f.Fuzz(func(t *testing.T, line []byte) {
		r, err := decodeLine(line)
		if err != nil {
			return
		}
		once := encodeLine(nil, r)
		again, err := decodeLine(once)
		if err != nil {
			t.Fatalf("%s%v", once, err)
		}
		if twice := encodeLine(nil, again); string(twice) != string(once) {
			t.Errorf("written %s, then %s", once, twice)
		}
	})
}
