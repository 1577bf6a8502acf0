package handout

import (
	_ "embed"
	"fmt"
	"html/template"
	"strings"
	"time"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// Input is what a page is made from.
type Input struct {
	// Figures are the evening's games, drills and warm-ups (Over) with what came before it.
	Figures insight.Input
	// At is when the evening began, in the time of the place.
	At    time.Time
	Place string
	// ArrowsFt is the distance of the target in feet, lane.DefaultArrowsFt where unknown.
	ArrowsFt model.Optional[float64]
	// Seat is the student's place in the evening as it was left, with the lines aimed at, the cue, the homework, the date of
	// the next meeting and the coach's sentence. Its focus, where it has one, takes the place of the student's own.
	Seat model.Seat
}

// NewInput gives what a student's page of an evening is made from: what was bowled in it (over), the finished games before
// it (earlier) and the student's first evening. Times are told in the zone of the place.
func NewInput(student model.Student, evening model.Session, zone *time.Location, over, earlier, first []model.DatedSheet) Input {
	in := Input{
		Figures: insight.Input{Student: student, Over: over, Earlier: earlier, First: first},
		At:      evening.At.In(zone), Place: evening.Place, ArrowsFt: evening.ArrowsFt,
	}
	if seat := evening.Seat(student.ID); seat >= 0 {
		in.Seat = evening.Roster[seat]
	}
	return in
}

// HTML gives the page: no script, no picture or style from elsewhere, one sheet of A4 or Letter in print. An error is one of
// the program, not of the input.
func HTML(in Input) (string, error) {
	var b strings.Builder
	if err := pageTemplate.Execute(&b, newPage(in)); err != nil {
		return "", fmt.Errorf("the handout cannot be made: %w", err)
	}
	return b.String(), nil
}

//go:embed page.css
var css string

//go:embed page.html.tmpl
var markup string

var pageTemplate = template.Must(template.New("handout").Parse(strings.Replace(markup, "/* page.css */", css, 1)))
