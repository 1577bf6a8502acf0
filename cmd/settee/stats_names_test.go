package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/lipgloss"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// statsNames are the names that readers of the JSON rely on, in their order; what an object has beyond them comes after
// them. An empty text stands for a value, one object in a list for every object of it.
const statsNames = `{"student":{"id":"","name":""},"games":"",
"counts":{"racks_seen":"","good":"","rate":"","interval":"","untouched":"","racks_unseen":"","spare_shots_seen":"",
 "spare_shots_good":"","fouls":"","load":"","method":""},
"outcome":{"earned":"","unlucky":"","lucky":"","missed":"","strike_when_good":"","strike_when_poor":"","difference":"",
 "difference_interval":"","fisher_p":"","pocket":{"hits":"","racks":"","strikes":""},"carry":"","method":""},
"cost":{"balance":"","target":"","release":"","finish":"","not_good":"","side":{"in":"","out":""},"method":""},
"worth":{"expected_score":"","pins_per_good_shot":"","method":""},
"cues":[{"cue":"","evenings":"","before":{"good":"","racks":""},"since":{"good":"","racks":""},"probability_better":"","method":""}],
"slipping":{"points":"","ewma":"","limits":"","since":"","method":""},
"own_call":{"calls":"","kappa":"","mean_difference":"","kinder":"","harder":"","method":""},
"consistency":{"arrows":{"n":"","bias":"","sd":"","within_one":""},"hit":{"n":"","bias":"","sd":"","within_one":""},"method":""},
"spares":{"single":{"made":"","tried":""},"multi":{"made":"","tried":""},"split":{"made":"","tried":""},
 "leaves":[{"leave":"","made":"","tried":""}],"open_frames":"","method":""},
"streaks":{"good_after_good":{"good":"","racks":""},"good_after_poor":{"good":"","racks":""},"runs_p":"","method":""},
"trend":{"games":[{"id":"","at":"","good":"","seen":"","score":"","level":""}],"smooth":"","band":"",
 "baseline":{"good":"","seen":""},"method":""},
"next":{"what":"","why":"","method":""}}`

func TestStatsNamesAreInOrder(t *testing.T) {
	for _, student := range []string{"ada", "adb", "bo"} {
		out := twoGames(t, student, "--json")
		if strings.Count(out, "\n") != 1 || !strings.HasSuffix(out, "}\n") {
			t.Errorf("%s: not one line", student)
		}
		leads(t, student, []byte(out), []byte(statsNames))
	}
}

// leads reports where the keys of a wanted JSON value are not the first of those that are there.
func leads(t *testing.T, path string, got, want json.RawMessage) {
	t.Helper()
	switch want[0] {
	case '{':
		g, w := members(t, path, got), members(t, path, want)
		if len(g) < len(w) {
			t.Errorf("%s has %d keys, want %d or more", path, len(g), len(w))
			return
		}
		for i := range w {
			if g[i].key != w[i].key {
				t.Errorf("key %d of %s is %s, want %s", i+1, path, g[i].key, w[i].key)
				continue
			}
			leads(t, path+"."+w[i].key, g[i].value, w[i].value)
		}
	case '[':
		var g, w []json.RawMessage
		if json.Unmarshal(got, &g) != nil || g == nil || json.Unmarshal(want, &w) != nil {
			t.Errorf("%s is no list: %s", path, got)
			return
		}
		for _, v := range g {
			leads(t, path, v, w[0])
		}
	}
}

type member struct {
	key   string
	value json.RawMessage
}

// members gives what a JSON object holds, in order.
func members(t *testing.T, path string, object json.RawMessage) []member {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(string(object)))
	if begin, err := d.Token(); err != nil || begin != json.Delim('{') {
		t.Fatalf("%s is no object: %s", path, object)
	}
	var out []member
	for d.More() {
		key, err := d.Token()
		var m member
		if err == nil {
			m.key = key.(string)
			err = d.Decode(&m.value)
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, m)
	}
	return out
}

// What is not known is null, lists are lists, and the counts are there all the same.
func TestStatsOfNothing(t *testing.T) {
	out := twoGames(t, "adb", "--json")
	for _, want := range []string{
		`"good":0,"rate":null,"interval":null,`, `"difference":null,"difference_interval":null,"fisher_p":null,`,
		`"carry":null,`, `"expected_score":null,"pins_per_good_shot":null,`, `"chances":[],"rates":null`, `"cues":[]`,
		`"points":[],"ewma":[],"limits":null,"since":null`, `"calls":0,"kappa":null,"mean_difference":null`,
		`"n":0,"bias":null,"sd":null,"within_one":null`, `"leaves":[]`, `"runs_p":null`,
		`"trend":{"games":[],"smooth":[],"band":[],`, `"smooth_score":[],"band_score":[],"weeks":[]`, `"lanes":[]`,
		`"by_game":[],"drills":[]`,
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %s in %s", want, out)
		}
	}
}

func TestStatsNamesTheShotSinceWhichItSlips(t *testing.T) {
	game := model.DatedSheet{Sheet: &model.Sheet{Game: model.Game{ID: "g2", Number: 4}}}
	s := insight.Slipping{
		Shots: []model.Delivery{{ID: "d1", Game: "g2", Frame: 7}, {ID: "d2", Game: "g2", Frame: 8}, {ID: "d3", Game: "g2", Frame: 9}},
		Since: model.Known(1), Limit: 60,
	}
	got, err := json.Marshal(slippingAsJSON(s, []model.DatedSheet{game}))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`"since":{"game":"g2","number":4,"frame":8,"delivery":"d2","shot":2}`, `"until":null`, `"load_limit":60`,
	} {
		if !strings.Contains(string(got), want) {
			t.Errorf("no %s in %s", want, got)
		}
	}
}

// pageSections are the sections in their order.
var pageSections = []string{"GOOD SHOTS", "HOW IT WAS THROWN AND WHAT FELL", "WHAT COST THE SHOTS",
	"WHAT ONE MORE GOOD SHOT IS WORTH", "CUES", "SLIPPING IN THE EVENING", "OWN CALL AND THE COACH'S", "CONSISTENCY", "SPARES",
	"STREAKS", "TREND", "WHAT TO WORK ON NEXT"}

func TestStatsPageKeepsToItsForm(t *testing.T) {
	path := filepath.Join(t.TempDir(), "invented.db")
	s, err := demoStore(path, 3)
	if err != nil {
		t.Fatal(err)
	}
	students, err := s.Students()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for _, student := range students {
		page := runIn(t, nil, "stats", "--store", path, string(student.ID))
		rest := page
		for _, section := range pageSections {
			_, after, ok := strings.Cut(rest, "\n\n"+section+"\n  ")
			if !ok {
				t.Errorf("%s: no section %s in its place", student.Name, section)
			}
			rest = after
		}
		for line := range strings.Lines(page) {
			if strings.ContainsFunc(line, func(r rune) bool { return r > unicode.MaxASCII }) {
				t.Errorf("not ASCII: %s", line)
			}
		}
		if line := tooWide(page); line != "" {
			t.Errorf("%s: more than %d columns: %s", student.Name, pageWidth, line)
		}
		for _, text := range []string{insight.OneEye, "too high even for an idle cue", "licensed practice"} {
			wanted := text != "licensed practice" || student.LoadLimit > 0
			if text == "too high even for an idle cue" {
				wanted = !strings.Contains(page, "no cue was in force")
			}
			if said := strings.Contains(strings.Join(strings.Fields(page), " "), text); said != wanted {
				t.Errorf("%s: %q said: %v", student.Name, text, said)
			}
		}
	}
}

func tooWide(page string) string {
	for line := range strings.Lines(page) {
		if lipgloss.Width(strings.TrimSuffix(line, "\n")) > pageWidth {
			return line
		}
	}
	return ""
}

func TestStatsPageBreaksLongWords(t *testing.T) {
	var p statsPage
	p.say(strings.Repeat("word ", 30)+strings.Repeat("x", 200)+" "+strings.Repeat("界", 90), "")
	if line := tooWide(p.String()); line != "" {
		t.Errorf("more than %d columns: %s", pageWidth, line)
	}
	if got := strings.Count(p.String(), "x"); got != 200 {
		t.Errorf("%d of 200 letters are left", got)
	}
}
