package handout

import (
	"math"
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
	Lead     string
	Sentence string
	// Print is the size of a letter in print, in pixels (96 an inch); Beside tells that the strips stand two in a row.
	Print   int
	Beside  bool
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

// gentle tells whether nothing unkind is said, and dots stand for letters.
func (t told) gentle() bool { return t.chosen.Tone == model.Gentle }

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
	in.Seat.Sentence, in.Place = clipped(in.Seat.Sentence, mostSentence), clipped(in.Place, mostPlace)
	in.Seat.Homework, in.Seat.Cue = clipped(in.Seat.Homework, mostHomework), clipped(in.Seat.Cue, mostCue)
	in.Figures.Student.Focus = clipped(in.Figures.Student.Focus, mostCue)
	t := reckoned(in)
	p := page{
		Name: nameOf(in.Figures.Student), When: dateWords(in.At), Place: in.Place, Sentence: in.Seat.Sentence,
		Lead: t.lead(), Rings: t.rings(), Moved: t.moved(), Costs: t.costs(), Results: t.results(), Truths: t.truths(),
		Spares: t.spares(), Drills: t.drills(), Keep: t.keep(), Work: t.work(), Card: t.card(),
		Homework: homeworkOf(in.Seat.Homework), Next: nextWords(in.Seat.Next), Trend: t.trendLine(), Cautions: cautions,
	}
	p.Title = title(p.Name, in.At)
	p.Strips, p.Omitted = t.strips()
	if len(p.Strips) > 0 {
		p.Legend = t.legend()
	}
	if in.Figures.Student.Minor {
		p.Guardian, p.Consent = true, consent
	}
	p.Print, p.Beside = p.printed()
	return p
}

// The most characters of the coach's words that one page has room for.
const mostSentence, mostHomework, mostCue, mostPlace = 360, 200, 100, 60

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

// The sheet of paper: sheetHeight is what a Letter page leaves between its margins, in pixels, with some to spare, because
// what is on it is only reckoned. More lines than manyLines set the strips two in a row.
const sheetHeight, smallest, largest, manyLines = 960, 7, 14, 95

// printed gives how large the letters are in print for all to stay on one sheet, and whether the strips stand two in a row.
func (p page) printed() (pixels int, beside bool) {
	for pixels = largest; pixels > smallest; pixels-- {
		var lines float64
		if lines, beside = p.lines(pixels); lines*float64(pixels) <= sheetHeight {
			break
		}
	}
	return pixels, beside
}

// lines gives about how many lines the page takes with letters of a size, a line being as high as a letter.
func (p page) lines(pixels int) (lines float64, beside bool) {
	lines = 14.5 + p.wordLines(pixels) + p.takeLines(pixels)
	if p.Guardian {
		lines += 3
	}
	if len(p.Rings) > 0 || p.Moved != nil {
		lines += 8
	}
	if len(p.Truths) > 0 {
		lines += 3 + rows(strings.Join(p.Truths, " "), 90, pixels)
	}
	switch {
	case p.Costs != nil || p.Results != nil || p.Trend != nil && p.Trend.Points != nil:
		lines += 9 + float64(len(p.Drills))
	case p.Spares != "" || len(p.Drills) > 0 || p.Trend != nil:
		lines += 4 + float64(len(p.Drills))
	}
	n := len(p.Strips)
	const strip = 6.2
	if beside = lines+2+strip*float64(n) > manyLines && n > 1; beside {
		n = (n + 1) / 2
	}
	if n > 0 {
		lines += 2 + strip*float64(n)
	}
	return lines, beside
}

// wordLines gives the lines of the sentences at the top, and of what to keep and to work on.
func (p page) wordLines(pixels int) float64 {
	lines := 2.2*rows(p.Name, 36, pixels) + 1.6*rows(p.Lead, 75, pixels) + 2
	if p.Sentence != "" {
		lines += 1 + 1.5*rows(p.Sentence, 95, pixels)
	}
	return lines + 1.45*rows(p.Work.What, 42, pixels) + 1.4*rows(p.Work.Why, 50, pixels) + 1.5*rows(p.Work.Cue, 36, pixels)
}

// takeLines gives the lines of the card and of the homework beside it.
func (p page) takeLines(pixels int) float64 {
	card, home := 0.0, 0.0
	if p.Card != nil {
		card = 20 + rows(p.Card.Note, 80, pixels)
	}
	if h := p.Homework; h != nil {
		home = 16 + 1.5*rows(h.Text+h.Drill, 26, pixels) + 1.4*rows(h.Count+h.Days, 30, pixels)
	}
	if p.Next != "" {
		home += 4
	}
	return max(card, home)
}

// rows gives how many rows a text takes in a column that has room for so many of its letters at 11 pixels.
func rows(text string, room, pixels int) float64 {
	return math.Ceil(float64(wide(text)*pixels) / float64(room*11))
}

// wide gives the room that a text takes, in Latin letters: the characters of other scripts may take two.
func wide(text string) int {
	n := 0
	for _, r := range text {
		n++
		if r > 0x2ff {
			n++
		}
	}
	return n
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
