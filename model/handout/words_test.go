package handout_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// unkind are the words that nobody gentle is told; part words of them count too.
var unkind = regexp.MustCompile(`(?i)\b(bad|badly|poor|poorly|wrong|fail\w*|miss\w*|lost|lose\w*|weak\w*|worse|worst|terrible|awful|` +
	`luck\w*|unlucky|error\w*|mistake\w*|fault\w*|never|cost\w*|unfortunately|only|just \d|not good|no good|none|nothing|should have|` +
	`down from|fell|short of|below|under|slip\w*|drop\w*|struggl\w*|problem\w*|careless|sloppy|behind|0 of|0 good|zero)\b`)

// negative are the words that a gentle first sentence has none of.
var negative = regexp.MustCompile(`(?i)\b(no|not|never|none|nothing|but|however|though|don't|didn't|without|0)\b`)

// letterGrade is a grade, which a gentle page has none of. F alone is a foul on a score sheet.
var letterGrade = regexp.MustCompile(`\b[BCD][+-]?\b|\bA[+-]|\bA in \d|graded`)

func TestGentlePagesAreKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyEvening(t, model.Gentle)
		for _, words := range [][]string{visible(t, html(t, in)), strings.Split(handout.Text(in), "\n")} {
			for _, line := range words {
				if hit := unkind.FindString(line); hit != "" {
					t.Fatalf("%q says %q", line, hit)
				}
				if hit := letterGrade.FindString(line); hit != "" {
					t.Fatalf("%q shows the letter %q", line, hit)
				}
			}
		}
		page := html(t, in)
		_, lead, ok := strings.Cut(page, `<p class="lead">`)
		lead, _, _ = strings.Cut(lead, "</p>")
		if !ok || lead == "" || negative.MatchString(lead) {
			t.Fatalf("the first sentence is %q", lead)
		}
		for _, part := range []string{`class="bars"`, `class="results"`, `class="truths"`} {
			if strings.Contains(page, part) {
				t.Fatalf("a gentle page has %s", part)
			}
		}
	})
}

// Every run of three or more lucky strikes is named for the blunt, in the page and in the text, by its game and its frames.
func TestBluntNamesLuckyRuns(t *testing.T) {
	runs := 0
	rapid.Check(t, func(t *rapid.T) {
		in := anyEvening(t, model.Blunt)
		in.Figures.Student.Minor = false // a child is never told bluntly
		page, text := strings.Join(visible(t, html(t, in)), "\n"), handout.Text(in)
		game := 0
		for _, s := range in.Figures.Over {
			if s.Game.Kind != model.KindGame {
				continue
			}
			game++
			for _, frames := range luckyRuns(s.Sheet) {
				runs++
				named := regexp.MustCompile(fmt.Sprintf(`Game %d: \d+ strikes in a row, (all )?lucky in frames? ([\d., ]*, )?%s[,.]`,
					game, regexp.QuoteMeta(strings.Join(frames, ", "))))
				for _, where := range []string{page, text} {
					if !named.MatchString(where) {
						t.Fatalf("lucky strikes in %v of game %d (%s) are not named in\n%s", frames, game, s.Card.Notation(), where)
					}
				}
			}
		}
	})
	if runs == 0 {
		t.Error("no run of lucky strikes was looked at")
	}
}

// luckyRuns finds them by the definition: strikes one after the other that were seen, graded and not good.
func luckyRuns(x *model.Sheet) (runs [][]string) {
	var run []string
	for i, d := range x.Deliveries {
		if strike := x.Racks[i].Full && d.Pins.Value == 10; strike && d.Grade() != model.Ungraded && !d.Good() {
			name := fmt.Sprint(d.Frame)
			if d.Frame == 10 {
				name = fmt.Sprintf("10.%d", d.Ball)
			}
			run = append(run, name)
			if i+1 < len(x.Deliveries) {
				continue
			}
		}
		if len(run) >= 3 {
			runs = append(runs, run)
		}
		run = nil
	}
	return runs
}

// What is not for a page in other hands is on none: limits, notes, level and tone; of a minor the last name too.
func TestPrivateWordsStayPrivate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyEvening(t, rapid.SampledFrom([]model.Tone{model.Gentle, model.Plain, model.Blunt}).Draw(t, "tone"))
		s := &in.Figures.Student
		s.Name, s.Limits, s.Notes, s.Minor = "Firstname Lastname", "limitstext", "notestext", rapid.Bool().Draw(t, "minor")
		for _, s := range in.Figures.Over {
			for i := range s.Deliveries {
				s.Deliveries[i].Note = "notestext"
			}
		}
		for _, page := range []string{strings.Join(visible(t, html(t, in)), "\n"), handout.Text(in)} {
			for _, word := range []string{"limitstext", "notestext", "gentle", "blunt", "elite"} {
				if strings.Contains(page, word) {
					t.Fatalf("the page says %q", word)
				}
			}
			if strings.Contains(page, "Lastname") == s.Minor {
				t.Fatalf("minor %v, and the last name is there: %v", s.Minor, !s.Minor)
			}
			if strings.Contains(page, "guardian") != s.Minor || !strings.Contains(page, "not medical advice") {
				t.Fatal("the guardian's consent or the cautions are not as they should be")
			}
		}
	})
}

// Whatever a name, a place, a cue or the coach's words hold, it is text: the page has the same elements as without it, is
// well-formed as strict XML, and the text reads back.
func TestHostileWordsAreText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyEvening(t, rapid.SampledFrom([]model.Tone{model.Gentle, model.Plain, model.Blunt}).Draw(t, "tone"))
		s := &in.Figures.Student
		say := func(words string) {
			s.Name, in.Place, in.Seat.Sentence, in.Seat.Cue, s.Focus = words, words, words, words, words
			in.Seat.Next, in.Seat.Homework = words, "not, in, three, parts, "+words
		}
		say("words")
		// How closely a page is set goes by how much it says: that is told by the first element, and left out.
		inside := func(page string) []string {
			all := elements(t, page)
			return all[slices.Index(all, "head"):]
		}
		harmless := inside(html(t, in))
		hostile := rapid.OneOf(rapid.SampledFrom([]string{
			`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</style></title></svg><b>`, `'; --`, `{{.Name}}`,
			`]]>`, `<!--`, `&lt;b&gt;`, `javascript:alert(1)`, `\u003cscript\u003e`, `قلم <b>`, "a\u202eb", `ﷺ'"`,
		}), rapid.StringN(1, 40, -1)).Filter(func(s string) bool { return len(strings.Fields(model.CleanText(s))) > 0 }).Draw(t, "words")
		say(hostile)
		page := html(t, in)
		want := strings.Join(strings.Fields(model.CleanText(hostile)), " ")
		if got := visible(t, page); !s.Minor && got[0] != want+", "+in.At.Format("2 January 2006") {
			t.Fatalf("%q is read as %q", want, got[0])
		}
		if got := inside(page); strings.Join(got, " ") != strings.Join(harmless, " ") {
			t.Fatalf("%q changes the elements from\n%s to\n%s", hostile, harmless, got)
		}
		for _, outside := range []string{"<script", "src=", " href=", "url(", "@import", "onerror="} {
			if strings.Contains(markupOf(t, page), outside) {
				t.Fatalf("the page holds %s", outside)
			}
		}
	})
}

func html(t rapid.TB, in handout.Input) string {
	page, err := handout.HTML(in)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// tokens reads a page as strict XML.
func tokens(t rapid.TB, page string, each func(xml.Token)) {
	for d := xml.NewDecoder(strings.NewReader(page)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("no well-formed page: %v", err)
		}
		each(token)
	}
}

// visible gives the texts of a page and what its pictures say, without the style.
func visible(t rapid.TB, page string) (out []string) {
	style := false
	tokens(t, page, func(token xml.Token) {
		switch token := token.(type) {
		case xml.StartElement:
			style = token.Name.Local == "style"
			for _, a := range token.Attr {
				if a.Name.Local == "aria-label" {
					out = append(out, a.Value)
				}
			}
		case xml.EndElement:
			style = false
		case xml.CharData:
			if text := strings.Join(strings.Fields(string(token)), " "); text != "" && !style {
				out = append(out, text)
			}
		}
	})
	return out
}

// elements gives the names of a page's elements and of their attributes.
func elements(t rapid.TB, page string) (out []string) {
	tokens(t, page, func(token xml.Token) {
		if e, ok := token.(xml.StartElement); ok {
			out = append(out, e.Name.Local)
			for _, a := range e.Attr {
				out = append(out, "@"+a.Name.Local)
			}
		}
	})
	return out
}

// markupOf gives a page without its texts.
func markupOf(t rapid.TB, page string) string {
	var b strings.Builder
	tokens(t, page, func(token xml.Token) {
		if e, ok := token.(xml.StartElement); ok {
			b.WriteString("<" + e.Name.Local)
			for _, a := range e.Attr {
				if a.Name.Local != "aria-label" {
					b.WriteString(" " + a.Name.Local + "=" + a.Value)
				}
			}
		}
	})
	return b.String()
}

// anyEvening generates an evening of a student of a tone: up to four games in any state, a drill, a past.
func anyEvening(t *rapid.T, tone model.Tone) handout.Input {
	s := model.Student{
		ID: "pat", Name: "Pat", Hand: rapid.SampledFrom([]model.Hand{model.RightHand, model.LeftHand}).Draw(t, "hand"), Tone: tone,
		Average: model.Known(rapid.IntRange(60, 240).Draw(t, "average")), Minor: rapid.Bool().Draw(t, "minor"),
		Focus: rapid.SampledFrom([]string{"", "release", "free swing"}).Draw(t, "focus"),
	}
	var past, over []model.DatedSheet
	for n := range rapid.IntRange(0, 4).Draw(t, "past") {
		past = append(past, anyGame(t, s, n/2, n%2+1))
	}
	for n := range rapid.IntRange(0, 4).Draw(t, "games") {
		over = append(over, anyGame(t, s, 5, n+1))
	}
	if rapid.Bool().Draw(t, "drill") {
		over = append(over, drill(t, s, 5, 9, "corner pin", tenpin.Pins(10), rapid.IntRange(0, 10).Draw(t, "made"), 10))
	}
	in := handout.Input{At: eveningAt(5), Figures: insight.Input{Student: s, Over: over, Earlier: past, First: past}}
	if len(past) == 0 {
		in.Figures.First = over
	}
	if rapid.Bool().Draw(t, "aimed") {
		aims(line(rapid.Float64Range(3, 30).Draw(t, "arrows"), rapid.Float64Range(5, 38).Draw(t, "slide")), line(12, 20), over...)
	}
	return in
}

// anyGame generates a game, some of it perhaps still open, with more strikes and more faults than there are.
func anyGame(t *rapid.T, s model.Student, evening, number int) model.DatedSheet {
	var b strings.Builder
	for range 10 {
		b.WriteString(rapid.SampledFrom([]string{"X", "X", "X", "X", "9/", "72", "F/", "--"}).Draw(t, "frame"))
	}
	notation := b.String()
	switch {
	case strings.HasSuffix(notation, "X"):
		notation += "XX"
	case strings.HasSuffix(notation, "/"):
		notation += "X"
	}
	letter := rapid.SampledFrom([]string{"A", "A", "A", "B", "B", "C", "D", "F"})
	letters := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string {
		if rapid.IntRange(0, 9).Draw(t, "seen") == 0 {
			return ""
		}
		return letter.Draw(t, "b") + letter.Draw(t, "t") + letter.Draw(t, "r") + letter.Draw(t, "f")
	}), 1, 21).Draw(t, "letters")
	return bowl(t, s, evening, number, notation, letters...)
}
