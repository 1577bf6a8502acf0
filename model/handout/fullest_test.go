package handout_test

import (
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// fullest are pages with as much on them as there can be, and one with as little.
var fullest = []pageOf{{"long", long}, {"wide-script", wideScript}, {"right-to-left", rightToLeft}, {"little", little}, {"unseen", unseen}}

// usual are pages as most evenings give them: up to four games, and six with a long sentence.
var usual = append(slices.Clone(goldens), []pageOf{{"four-games", fourGames}, {"six-games", sixGames}}...)

// fourGames end in a split, which takes most room.
func fourGames(t testing.TB) handout.Input {
	in := regular(t)
	s := in.Figures.Student
	for n, tenth := range []string{"X81", "8/X", "X8-", "8/8"} {
		x := bowl(t, s, 3, n+2, "9/ X 81 8/ 81 X 8- 9/ 81 "+tenth, "AABA", "AAAA", "BAAB", "AAAA")
		in.Figures.Over = append(in.Figures.Over[:n+1], split(t, x))
	}
	return in
}

// split has every first ball of eight leave the corner pins.
func split(t testing.TB, x model.DatedSheet) model.DatedSheet {
	for i, d := range x.Deliveries {
		if x.Racks[i].Full && d.Pins.Value == 8 {
			x.Deliveries[i].After = tenpin.Standing(tenpin.Pins(7, 10))
		}
	}
	again, err := model.NewSheet(x.Game, x.Deliveries)
	if err != nil {
		t.Fatal(err)
	}
	return model.DatedSheet{Sheet: again, At: x.At}
}

func sixGames(t testing.TB) handout.Input {
	in := elite(t)
	for n := range 3 {
		in.Figures.Over = append(in.Figures.Over, bowl(t, in.Figures.Student, 4, 4+n, "X X 9/ X X 9/ X 8/ X XX9", "AABC", "AAAA", "AAAA", "BABB"))
	}
	in.Seat.Sentence = strings.Repeat("You stayed behind it tonight. ", 20)
	return in
}

// unseen is a game that nobody watched.
func unseen(t testing.TB) handout.Input {
	in := handout.Input{At: eveningAt(0)}
	in.Figures = insight.Input{Student: plain, Over: []model.DatedSheet{bowl(t, plain, 0, 1, strings.Repeat("9- ", 9)+"8/X", "")}}
	return in
}

// long has eight games, drills, and the longest of every text.
func long(t testing.TB) handout.Input {
	in := elite(t)
	s := in.Figures.Student
	s.Name = strings.Repeat("Maximiliana ", 6) + "Ostrova"
	s.Focus = strings.Repeat("stay behind the ball ", 90)
	for n := range 5 {
		in.Figures.Over = append(in.Figures.Over, bowl(t, s, 4, 4+n, "X X X X X 9/ X X X XX9", "AABC", "ACBA", "BABB", "AAAA"))
	}
	for n := range 4 {
		in.Figures.Over = append(in.Figures.Over,
			drill(t, s, 4, 9+n, strings.Repeat("corner pin ", 20)+string(rune('a'+n)), tenpin.Pins(10), n, 10))
	}
	in.Figures.Student, in.Place = s, strings.Repeat("Lakeside Lanes ", 20)
	in.Seat.Sentence = strings.Repeat("You stayed behind it and it showed. ", 60)
	in.Seat.Homework = strings.Repeat("Foul-line releases until they are dull. ", 50)
	in.Seat.Cue = strings.Repeat("quiet hand ", 100)
	return in
}

// wideScript has long texts in characters that are twice as wide, and not a blank in them.
func wideScript(t testing.TB) handout.Input {
	in := long(t)
	in.Figures.Student.Name = strings.Repeat("球道練習", 20)
	in.Seat.Sentence = strings.Repeat("今晩は手が静かで球が真っすぐに転がりました", 60)
	in.Seat.Homework, in.Seat.Cue = strings.Repeat("一歩の振り十回", 200), strings.Repeat("静かな手", 100)
	in.Figures.Student.Focus, in.Place = strings.Repeat("釣り合い", 200), strings.Repeat("湖畔", 100)
	return in
}

// rightToLeft is a beginner whose name and whose coach's words are written from right to left.
func rightToLeft(t testing.TB) handout.Input {
	in := newMinor(t)
	in.Figures.Student.Name = "نور الهادي"
	in.Seat.Sentence, in.Seat.Homework = "رميت الكرة بهدوء الليلة, أحسنت!", "تأرجح بخطوة واحدة, 10 كل يوم, الاثنين والأربعاء"
	return in
}

// little is an evening of a drill and nothing else.
func little(t testing.TB) handout.Input {
	s := model.Student{ID: "bo", Name: "Bo", Hand: model.RightHand}
	in := handout.Input{At: eveningAt(0)}
	in.Figures.Student = s
	in.Figures.Over = append(in.Figures.Over, drill(t, s, 0, 1, "", tenpin.AllPins, 2, 6))
	return in
}
