package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// idsFrom gives ids in order.
func idsFrom(prefix string) func() model.ID {
	n := 0
	return func() model.ID {
		n++
		return model.ID(fmt.Sprintf("%s%04d", prefix, n))
	}
}

// enrolled takes a table into the store at path.
func enrolled(t testing.TB, path, table string) Rostered {
	t.Helper()
	taken, err := ImportRoster(path, strings.NewReader(table), idsFrom("n"))
	if err != nil {
		t.Fatal(err)
	}
	return taken
}

// kept gives the students of the store at path without their ids, by name.
func kept(t testing.TB, path string) []model.Student {
	t.Helper()
	s := mustOpen(t, path)
	defer s.Close()
	students, err := s.Students()
	if err != nil {
		t.Fatal(err)
	}
	for i := range students {
		students[i].ID = ""
	}
	slices.SortStableFunc(students, func(a, b model.Student) int { return strings.Compare(a.Name, b.Name) })
	return students
}

func ada() model.Student {
	return model.Student{Name: "Ada Marsh", Hand: model.LeftHand, Average: model.Known(172)}
}

func TestATableOfStudentsIsTaken(t *testing.T) {
	bo := model.Student{Name: "Bo", Hand: model.RightHand}
	all := model.Student{
		Name: "Åsa \"Å\" Holm", Hand: model.RightHand, Average: model.Known(0), Style: model.NoThumb, Level: model.Elite, Goal: 17,
		Bar: model.GradeBPlus, Tone: model.Blunt, Minor: true, Balls: []string{"dull blue 15", "plastic"}, SpeedMPH: model.Known(16.5),
		RevRPM: model.Known(320.0), AxisRotation: model.Known(45.0), SlideOffset: model.Known(-1.5), Limits: "left knee; no deep slide",
		LoadLimit: 60, Notes: "=likes numbers", AverageOn: "house oil, 40 feet", Weights: model.Weights{10, 20, 30, 40},
		Watched: model.AxisSet(0).With(model.Target).With(model.Release), Focus: "free swing",
	}
	header := strings.Join(RosterColumns(), ",")
	row := `"Åsa ""Å"" Holm",right,0,no-thumb,elite,8.5,B+,blunt,yes,"dull blue 15, plastic",16.5,320,45,-1.5,` +
		`left knee; no deep slide,60,'=likes numbers,"house oil, 40 feet",10/20/30/40,target release,free swing`
	for name, c := range map[string]struct {
		table string
		want  []model.Student
	}{
		"what every table has":        {"name,hand,average\nAda Marsh,left,172\nBo,right,\n", []model.Student{ada(), bo}},
		"no end of the last line":     {"name,hand,average\nBo,right,", []model.Student{bo}},
		"another order":               {"average,name,hand\n172,Ada Marsh,left\n", []model.Student{ada()}},
		"every column":                {header + "\n" + row + "\n", []model.Student{all}},
		"semicolons":                  {"name;hand;average;speed_mph\nBo;right;;\nAda Marsh;left;172;\n", []model.Student{ada(), bo}},
		"tabs":                        {"name\thand\taverage\nAda Marsh\tleft\t172\n", []model.Student{ada()}},
		"a byte order mark":           {"\ufeffname;hand;average\r\nAda Marsh;left;172\r\n", []model.Student{ada()}},
		"a column's name freely":      {"Name , HAND,Average,Average on\nAda Marsh,left,172,\n", []model.Student{ada()}},
		"cells without anything":      {"name,hand,average,,\n,,,,\nAda Marsh,left,172,,\n,,\n\n", []model.Student{ada()}},
		"blanks in a name":            {"name,hand,average\n  Ada   Marsh ,left,172\n", []model.Student{ada()}},
		"a spreadsheet's truth":       {"name,hand,average,minor\nBo,right,,FALSE\n", []model.Student{bo}},
		"two of a name told apart":    {"name,hand,average\nAda Marsh,left,172\nada marsh,right,90\n", []model.Student{ada(), {Name: "ada marsh", Hand: model.RightHand, Average: model.Known(90)}}},
		"an apostrophe of the name's": {"name,hand,average\n'Ata,right,\n", []model.Student{{Name: "'Ata", Hand: model.RightHand}}},
		"a header and nothing more":   {"name,hand,average\n", nil},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "settee.db")
			taken := enrolled(t, path, c.table)
			if len(taken.Taken) != len(c.want) || len(taken.Known) != 0 {
				t.Errorf("taken %+v, known %+v", taken.Taken, taken.Known)
			}
			if diff := cmp.Diff(c.want, kept(t, path), cmpopts.EquateEmpty()); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// What a decimal comma means is the profile's to say.
func TestADecimalCommaIsRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	enrolled(t, path, "name;hand;average;speed_mph;goal\nBo;right;150;16,5;4,5\n")
	if bo := kept(t, path)[0]; bo.SpeedMPH != model.Known(16.5) || bo.Goal != 9 {
		t.Errorf("the speed is %v, the goal %v", bo.SpeedMPH, bo.Goal)
	}
}

func TestEveryColumnHasAFieldOfTheProfile(t *testing.T) {
	fields := map[string]bool{}
	for _, f := range model.ProfileFields() {
		fields[f.Name] = true
	}
	for _, c := range rosterColumns {
		if !fields[c.field] {
			t.Errorf("the column %s is read by no field: there is none called %s", c.column, c.field)
		}
	}
}

func TestATableOfStudentsIsRefused(t *testing.T) {
	const head = "name,hand,average\n"
	tooMany := head
	for n := range 24 {
		tooMany += fmt.Sprintf("Bo %d,both,\n", n)
	}
	for name, c := range map[string]struct{ table, why string }{
		"nothing":                   {"", "line 1: the table is empty"},
		"nothing but lines":         {"\n\n", "line 1: the table is empty"},
		"a column there is not":     {"name,hand,average,shoe size\n", `line 1: the column "shoe_size" is unknown: use name, hand, average, style, `},
		"a column twice":            {"name,hand,average,Name\n", "line 1: the column name is there twice"},
		"no column for the hand":    {"name,average\nBo,1\n", "line 1: the column hand is missing"},
		"a table of deliveries":     {strings.Join(header(), ","), `line 1: the column "session" is unknown`},
		"a row without a name":      {head + "\nBo,right,\n,right,100\n", "line 4: the name is empty"},
		"a row without a hand":      {head + "Bo,,100\n", `line 2: the hand "": use right or left`},
		"a hand there is not":       {head + "Bo,both,100\n", `line 2: hand: the hand "both": use right or left`},
		"an average of 400":         {head + "Bo,right,400\n", "line 2: average: an average of 400: averages are 0 to 300"},
		"an average in words":       {head + "Bo,right,ninety\n", "line 2: average: "},
		"a row too short":           {head + "Bo\n", `line 2: the hand ""`},
		"a cell beyond the header":  {head + "Bo,right,100,x\n", `line 2: "x" is in a column without a name`},
		"a cell in no column":       {"name,hand,average,\nBo,right,100,x\n", `line 2: "x" is in a column without a name`},
		"a bad cell of more lines":  {head + "\"Bo\nTern\",right,100\nCy,up,\n", "line 4: hand: "},
		"weights that miss":         {"name,hand,average,weights\nBo,right,,10/20/30/41\n", "line 2: weights: "},
		"neither yes nor no":        {"name,hand,average,minor\nBo,right,,perhaps\n", "line 2: minor: "},
		"a control character":       {"name,hand,average\n\"B\x1bo\",both,\n", "line 2: hand: "},
		"a student twice":           {head + "Bo Tern,right,100\nCy,left,90\nbo  tern,left,100\n", "line 4: bo tern is in line 2 already: give each an average"},
		"a student twice, one bare": {head + "Bo,right,100\nBo,left,\n", "line 3: Bo is in line 2 already"},
		"an open quotation":         {head + "Bo,right,100\n\"Cy,left,90\n", "line 3: its quotation marks do not match"},
		"a quotation in a cell":     {head + "B\"o,right,100\n", "line 2: its quotation marks do not match"},
		"a quotation in the header": {"na\"me,hand,average\n", "line 1: its quotation marks do not match"},
		"another encoding":          {head + "Bo,right,1\n\xc5sa,right,100\n", "line 3: it is not in UTF-8: save the table as CSV in UTF-8"},
		"wide characters":           {"\xff\xfen\x00a\x00m\x00e\x00", "line 1: it is not in UTF-8"},
		"every bad row":             {head + "Bo,up,1\nCy,left,1\nDi,left,301\n", `line 2: hand: the hand "up": use right or left; line 4: average: an average of 301`},
		"two bad cells of a row":    {head + "Bo,up,301\n", `line 2: hand: the hand "up": use right or left, and average: an average of 301`},
		"bad rows after quotations": {
			head + "B\"o,left,1\n\"Cy\"s,left,1\nDi,up,1\n",
			"line 2: its quotation marks do not match: a cell with one has one at each end, and two for each within; " +
				"line 3: its quotation marks do not match: a cell with one has one at each end, and two for each within; " +
				`line 4: hand: the hand "up"`,
		},
		"a bad row and a bad end": {head + "Bo,up,1\n\"Cy", `line 2: hand: the hand "up": use right or left; line 3: its quotation marks`},
		"more than are listed":    {tooMany, `line 2: hand: `},
	} {
		t.Run(name, func(t *testing.T) {
			refusesTable(t, c.table, c.why)
		})
	}
	_, err := readRoster(strings.NewReader(tooMany), idsFrom("n"))
	if n := strings.Count(err.Error(), "line "); n != 20 || !strings.HasSuffix(err.Error(), "; and 4 more") {
		t.Errorf("%d lines are named: %v", n, err)
	}
}

// refusesTable holds a table to being refused for a reason, into no store and into one, both left as they were.
func refusesTable(t *testing.T, table, why string) {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "settee.db")
	if _, err := ImportRoster(path, strings.NewReader(table), idsFrom("n")); err == nil || !strings.HasPrefix(err.Error(), why) {
		t.Errorf("got %v, want %s", err, why)
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
		t.Errorf("in the directory are %v, %v", left, err)
	}
	mustImport(t, path, sample(t))
	before := read(t, path)
	if _, err := ImportRoster(path, strings.NewReader(table), idsFrom("n")); err == nil {
		t.Error("taken into a store")
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the store has changed")
	}
}

func TestWhoIsKnownIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	enrolled(t, path, "name,hand,average,notes\nAda Marsh,left,172,first\nBo,right,,\nCy,right,140,\nCy,right,150,\n")
	before := exported(t, path)
	for name, c := range map[string]struct {
		rows                    string
		taken, known, namesakes []string
	}{
		"the same average":          {"ada marsh,right,172\n", nil, []string{"n0001"}, nil},
		"no average in the row":     {"ADA  MARSH,right,\n", nil, []string{"n0001"}, nil},
		"no average that is kept":   {"Bo,left,120\n", nil, []string{"n0002"}, nil},
		"another average":           {"Ada Marsh,left,90\n", []string{"Ada Marsh"}, nil, []string{"Ada Marsh"}},
		"one of two":                {"Cy,left,150\n", nil, []string{"n0004"}, nil},
		"both of two":               {"Cy,left,150\nCy,left,140\n", nil, []string{"n0004", "n0003"}, nil},
		"a third":                   {"Cy,left,160\nDi,left,160\n", []string{"Cy", "Di"}, nil, []string{"Cy"}},
		"kept once and named twice": {"Bo,left,120\nBo,left,130\n", []string{"Bo"}, []string{"n0002"}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			other := filepath.Join(t.TempDir(), "settee.db")
			mustImport(t, other, before)
			got, err := ImportRoster(other, strings.NewReader("name,hand,average\n"+c.rows), idsFrom("m"))
			if err != nil {
				t.Fatal(err)
			}
			names := func(students []model.Student, of func(model.Student) string) []string {
				var out []string
				for _, s := range students {
					out = append(out, of(s))
				}
				return out
			}
			name := func(s model.Student) string { return s.Name }
			id := func(s model.Student) string { return string(s.ID) }
			if diff := cmp.Diff([][]string{c.taken, c.known, c.namesakes},
				[][]string{names(got.Taken, name), names(got.Known, id), names(got.Namesakes, name)}); diff != "" {
				t.Error(diff)
			}
			if len(got.All) != 4+len(c.taken) {
				t.Errorf("%d students are told", len(got.All))
			}
			after := exported(t, other)
			if c.taken == nil {
				same(t, after, before)
			}
			for line := range bytes.Lines(before) {
				if !bytes.Contains(after, line) {
					t.Errorf("gone or changed is %s", line)
				}
			}
		})
	}
}

func TestTheSameAverageIsKnownBeforeNone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, []byte(firstLine+`
{"type":"student","id":"a","name":"Cy","hand":"right","minor":false,"archived":false}
{"type":"student","id":"b","name":"Cy","hand":"right","average":150,"minor":false,"archived":false}
`))
	got := enrolled(t, path, "name,hand,average\nCy,right,150\nCy,right,160\n")
	if len(got.Taken) != 0 || len(got.Known) != 2 || got.Known[0].ID != "b" || got.Known[1].ID != "a" {
		t.Errorf("taken %+v, known %+v", got.Taken, got.Known)
	}
}

func TestATableTwiceChangesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	const table = "name,hand,average\nAda Marsh,left,172\nAda Marsh,left,90\nBo,right,\n"
	enrolled(t, path, table)
	before := exported(t, path)
	if again := enrolled(t, path, table); len(again.Taken) != 0 || len(again.Known) != 3 {
		t.Errorf("taken again %+v, known %+v", again.Taken, again.Known)
	}
	same(t, exported(t, path), before)
}

// TestATableOfManyIsOneTransaction has more rows than the journal holds.
func TestATableOfManyIsOneTransaction(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	var table strings.Builder
	table.WriteString("name,hand,average,notes\n")
	for n := range 2000 {
		fmt.Fprintf(&table, "Student %d,right,%d,%s\n", n, n%300, strings.Repeat("n", 500))
	}
	if taken := enrolled(t, path, table.String()); len(taken.Taken) != 2000 {
		t.Errorf("taken %d", len(taken.Taken))
	}
	if all := kept(t, path); len(all) != 2000 {
		t.Errorf("kept %d", len(all))
	}
}

func TestATableNeedsTheStoreForItself(t *testing.T) {
	s := openTemp(t, Options{})
	_, err := ImportRoster(s.Path(), strings.NewReader("name,hand,average\nBo,right,\n"), idsFrom("n"))
	if !errors.Is(err, ErrInUse) {
		t.Errorf("got %v", err)
	}
}

func TestATableThatCannotBeReadIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	in := iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader("name,hand,average\nBo,right,\n")))
	if _, err := ImportRoster(path, in, idsFrom("n")); !errors.Is(err, iotest.ErrTimeout) {
		t.Errorf("got %v", err)
	}
	long := "name,hand,average\n" + strings.Repeat("\n", maxRoster)
	if _, err := ImportRoster(path, strings.NewReader(long), idsFrom("n")); err == nil || !strings.Contains(err.Error(), "longer than 8 MB") {
		t.Errorf("got %v", err)
	}
	if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
		t.Error("a store was made")
	}
}

// TestWhatAnExportDefusesIsReadBack takes texts that a spreadsheet would run through the cell that the table of
// deliveries has for them.
func TestWhatAnExportDefusesIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("=+-@＝ 'ab1"))).Draw(t, "text")
		if defused(text) == text {
			// An apostrophe of the text's own before a formula looks like ours.
			t.Skip()
		}
		if got := undefused(defused(text)); got != text {
			t.Fatalf("%q is written %q and read %q", text, defused(text), got)
		}
	})
}

// FuzzRoster holds a table to being taken whole, in an order of rows that names no student twice, or not at all.
func FuzzRoster(f *testing.F) {
	f.Add([]byte("name,hand,average\nAda Marsh,left,172\nBo,right,\n"))
	f.Add([]byte("\ufeffname;hand;average;minor\r\n\"Bo \"\"B\"\"\";r;1;x\r\n"))
	f.Add([]byte("name,hand,average\n\"Bo"))
	f.Add([]byte(strings.Join(RosterColumns(), "\t") + "\nBo\tl\t\t2\tel\t8.5\ta\tbl\ty\ta,b\t16\t300\t45\t-1\t'=x\t9\tn\ton\t25 25 25 25\tbt\tf"))
	f.Add([]byte("{\"type\":\"settee\",\"format\":1}\n"))
	f.Add(sample(f))
	f.Fuzz(func(t *testing.T, table []byte) {
		path := filepath.Join(t.TempDir(), "settee.db")
		taken, err := ImportRoster(path, bytes.NewReader(table), idsFrom("n"))
		if err != nil {
			if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
				t.Error("a store is there though the table was refused")
			}
			return
		}
		all := kept(t, path)
		if len(all) != len(taken.Taken) || len(taken.Known) != 0 {
			t.Errorf("%d are kept, %d taken, %d known", len(all), len(taken.Taken), len(taken.Known))
		}
		once := exported(t, path)
		again, err := ImportRoster(path, bytes.NewReader(table), idsFrom("m"))
		if err != nil || len(again.Taken) != 0 || len(again.Known) != len(all) {
			t.Errorf("again: taken %+v, known %+v, %v", again.Taken, again.Known, err)
		}
		same(t, exported(t, path), once)
		// What was taken is what an export can say.
		mustImport(t, filepath.Join(t.TempDir(), "other.db"), once)
	})
}
