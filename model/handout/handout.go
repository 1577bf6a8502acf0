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
	// Seat is the student's place in the evening as it was left, with the lines aimed at, the cue, the homework and the date
	// of the next meeting.
	Seat model.Seat
	// Sentence is what the coach says of the evening, in the coach's own words; "" for nothing.
	Sentence string
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
