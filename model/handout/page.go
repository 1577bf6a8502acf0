package handout

import (
	"strings"
	"time"
	"unicode/utf8"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// page is all that is told, in the order in which it is told. What is empty is left out.
type page struct {
	Title, Name, When, Place string
	// Guardian tells that it is a minor's page, meant for the guardian too.
	Guardian bool
	// Lead is the first sentence, Address the name that a minor is addressed by in it.
	Lead, Address string
	Sentence      string
	// Print is how it stands on a sheet of paper.
	printed
	Rings   []ring
	Moved   *moved
	Strips  []strip
	Omitted string
	Legend  []sign
	Costs   *costs
	Results *results
	// Truths are the lucky strikes and what else an expert is told without being asked.
	Truths   []string
	Spares   string
	Drills   []string
	Keep     string
	Work     work
	Card     *card
	Homework *homework
	Next     string
	Trend    *trend
	Cautions string
	Consent  string
}

const (
	cautions = "This is coaching, not medical advice: stop at pain and see a licensed clinician. " +
		"Warm up first. On the approach the house rules hold."
	consent = "Coaching a minor, and keeping these notes, takes a guardian's consent: please tell the coach if it was not asked for."
)

// told is what a page is made from, reckoned.
type told struct {
	Input
	chosen model.Chosen
	// now is the evening, before the games before it at the evening's level, trend over both.
	now, before insight.Report
	trend       insight.Trend
}

// gentle tells whether nothing unkind is said.
func (t told) gentle() bool { return t.chosen.Tone == model.Gentle }

// dots tells whether dots stand for letters, and nothing is told of what they are made from: to a beginner, whatever the
// tone, and to the gentle.
func (t told) dots() bool {
	return t.gentle() || t.chosen.Level == model.New || levelOf(t.Figures.Over) == model.New
}

// minor tells whether the page is a child's, whatever its level and tone.
func (t told) minor() bool { return t.Figures.Student.Minor }

func (t told) blunt() bool { return t.chosen.Tone == model.Blunt }

// games gives the evening's games.
func (t told) games() []model.DatedSheet {
	var games []model.DatedSheet
	for _, s := range t.Figures.Over {
		if s.Game.Kind == model.KindGame && len(s.Deliveries) > 0 {
			games = append(games, s)
		}
	}
	return games
}

func reckoned(in Input) told {
	t := told{Input: in, chosen: in.Figures.Student.ChosenAt(in.Seat), now: insight.NewReport(in.Figures)}
	student := in.Figures.Student
	earlier := atLevelOf(in.Figures.Over, in.Figures.Earlier)
	t.before = insight.NewReport(insight.Input{Student: student, Over: earlier})
	all := append(append([]model.DatedSheet(nil), in.Figures.Earlier...), in.Figures.Over...)
	t.trend = insight.NewReport(insight.Input{Student: student, Over: all, First: in.Figures.First}).Trend
	return t
}

// atLevelOf gives the earlier games of the level at which the evening was bowled: letters are against it.
func atLevelOf(over, earlier []model.DatedSheet) []model.DatedSheet {
	level := levelOf(over)
	var same []model.DatedSheet
	for _, g := range earlier {
		if levelOf([]model.DatedSheet{g}) == level {
			same = append(same, g)
		}
	}
	return same
}

// levelOf gives the level of the last game's first delivery.
func levelOf(sheets []model.DatedSheet) (level model.Level) {
	for _, s := range sheets {
		if s.Game.Kind == model.KindGame && len(s.Deliveries) > 0 {
			level = s.Deliveries[0].Level
		}
	}
	return level
}

func newPage(in Input) page {
	if in.Seat.Focus != "" {
		in.Figures.Student.Focus = in.Seat.Focus
	}
	in.Seat.Sentence, in.Place = clipped(in.Seat.Sentence, MaxSentence), clipped(in.Place, mostPlace)
	in.Seat.Homework, in.Seat.Cue = clipped(in.Seat.Homework, MaxHomework), clipped(in.Seat.Cue, MaxCue)
	in.Figures.Student.Focus = clipped(in.Figures.Student.Focus, MaxFocus)
	if s := &in.Figures.Student; s.Minor && s.Chosen().Tone == model.Blunt {
		s.Tone = model.Plain // never blunt to a child
	}
	t := reckoned(in)
	p := page{
		Name: nameOf(in.Figures.Student), When: dateWords(in.At), Place: in.Place, Sentence: in.Seat.Sentence,
		Rings: t.rings(), Moved: t.moved(), Costs: t.costs(), Results: t.results(), Truths: t.truths(),
		Spares: t.spares(), Drills: t.drills(), Keep: t.keep(), Work: t.work(), Card: t.card(),
		Homework: homeworkOf(in.Seat.Homework), Next: nextWords(in.Seat.Next), Trend: t.trendLine(), Cautions: cautions,
	}
	p.Title = title(p.Name, in.At)
	p.Strips, p.Omitted = t.strips()
	p.Legend = legend(p.Strips)
	if p.Lead = t.lead(); t.minor() {
		p.Guardian, p.Consent, p.Address = true, consent, p.Name
	}
	if p.Address == "" {
		p.Lead = sentence(p.Lead)
	}
	p.printed = p.print()
	return p
}

// The most characters of the coach's words that one page has room for: of the sentence, of the homework, of what to work on
// and of the cue. What is longer, as in a store of before there were limits, ends with "…".
const MaxSentence, MaxHomework, MaxFocus, MaxCue = 600, 300, 120, 120

// mostPlace is the same of a place, and of a next time that is no date.
const mostPlace = 60

// clipped gives a text without what cannot be shown and of at most so many characters; one that is cut ends with "…".
func clipped(text string, most int) string {
	text = model.CleanText(text)
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	cut := string([]rune(text)[:most-1])
	if i := strings.LastIndexByte(cut, ' '); i > most/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,;:.") + "…"
}

// nameOf gives the name on the page: of a minor the first.
func nameOf(s model.Student) string {
	name := model.CleanText(s.Name)
	if words := strings.Fields(name); s.Minor && len(words) > 0 {
		return words[0]
	}
	return name
}

func title(name string, at time.Time) string { return name + ", " + at.Format("2 January 2006") }

func dateWords(at time.Time) string { return at.Format("Monday 2 January 2006") }

// nextWords says the date of the next meeting, as it is kept where it is no date.
func nextWords(date string) string {
	at, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return clipped(date, mostPlace)
	}
	return dateWords(at)
}
