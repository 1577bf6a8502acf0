package handout_test

import (
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/tenpin"
)

// fullest are pages with as much on them as there can be, and one with as little.
var fullest = []struct {
	name string
	of   func(testing.TB) handout.Input
}{{"long", long}, {"wide-script", wideScript}, {"right-to-left", rightToLeft}, {"little", little}}

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
