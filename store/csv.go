package store

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// ball is a delivery with everything it belongs to.
type ball struct {
	session  *model.Session
	student  *model.Student
	game     *model.Game
	rack     model.Rack
	delivery *model.Delivery
}

// column is one column of the table of deliveries.
type column struct {
	name string
	cell func(ball) string
}

// columns are the table's, from left to right. What is unknown is an empty cell.
var columns = []column{
	{"session", func(b ball) string { return defused(string(b.session.ID)) }},
	{"session_at", func(b ball) string { return timeCell(b.session.At) }},
	{"place", func(b ball) string { return defused(b.session.Place) }},
	{"student", func(b ball) string { return defused(string(b.student.ID)) }},
	{"name", func(b ball) string { return defused(b.student.Name) }},
	{"hand", func(b ball) string { return string(b.student.Hand) }},
	{"game", func(b ball) string { return defused(string(b.game.ID)) }},
	{"number", func(b ball) string { return strconv.Itoa(b.game.Number) }},
	{"kind", func(b ball) string { return string(b.game.Kind) }},
	{"game_name", func(b ball) string { return defused(b.game.Name) }},
	{"stopped", func(b ball) string { return defused(b.game.Stopped) }},
	{"delivery", func(b ball) string { return defused(string(b.delivery.ID)) }},
	{"seq", func(b ball) string { return strconv.Itoa(b.delivery.Seq) }},
	{"at", func(b ball) string { return timeCell(b.delivery.At) }},
	{"lane", func(b ball) string { return strconv.Itoa(b.delivery.Lane) }},
	{"frame", func(b ball) string { return countCell(b.delivery.Frame) }},
	{"ball", func(b ball) string { return countCell(b.delivery.Ball) }},
	{"full_rack", func(b ball) string { return strconv.FormatBool(b.rack.Full) }},
	{"standing", func(b ball) string { return leaveCell(b.delivery.After) }},
	{"pins", func(b ball) string { return wholeCell(b.delivery.Pins) }},
	{"foul", func(b ball) string { return strconv.FormatBool(b.delivery.Foul) }},
	{"dead", func(b ball) string { return strconv.FormatBool(b.delivery.Dead) }},
	{"seen", func(b ball) string { return strconv.FormatBool(b.delivery.Seen) }},
	{"balance", func(b ball) string { return b.delivery.Letters[model.Balance].String() }},
	{"target", func(b ball) string { return b.delivery.Letters[model.Target].String() }},
	{"release", func(b ball) string { return b.delivery.Letters[model.Release].String() }},
	{"finish", func(b ball) string { return b.delivery.Letters[model.Finish].String() }},
	{"touched", func(b ball) string { return seenCell(b.delivery, b.delivery.Touched) }},
	{"grade", func(b ball) string { return b.delivery.Grade().String() }},
	{"good", func(b ball) string { return seenCell(b.delivery, b.delivery.Good()) }},
	{"level", func(b ball) string { return string(b.delivery.Level) }},
	{"bar", func(b ball) string { return b.delivery.Bar.String() }},
	{"weight_balance", func(b ball) string { return strconv.Itoa(b.delivery.Weights[model.Balance]) }},
	{"weight_target", func(b ball) string { return strconv.Itoa(b.delivery.Weights[model.Target]) }},
	{"weight_release", func(b ball) string { return strconv.Itoa(b.delivery.Weights[model.Release]) }},
	{"weight_finish", func(b ball) string { return strconv.Itoa(b.delivery.Weights[model.Finish]) }},
	{"side", func(b ball) string { return string(b.delivery.Side) }},
	{"side_boards", func(b ball) string { return countCell(b.delivery.SideBoards) }},
	{"hit", func(b ball) string { return string(b.delivery.Hit) }},
	{"hit_boards", func(b ball) string { return numberCell(b.delivery.HitBoards) }},
	{"aimed_arrows", func(b ball) string { return numberCell(b.delivery.Aimed.Arrows) }},
	{"aimed_slide", func(b ball) string { return numberCell(b.delivery.Aimed.Slide) }},
	{"aimed_breakpoint", func(b ball) string { return numberCell(b.delivery.Aimed.Breakpoint) }},
	{"aimed_breakpoint_ft", func(b ball) string { return numberCell(b.delivery.Aimed.BreakpointFt) }},
	{"line_arrows", func(b ball) string { return numberCell(b.delivery.Line.Arrows) }},
	{"line_slide", func(b ball) string { return numberCell(b.delivery.Line.Slide) }},
	{"line_breakpoint", func(b ball) string { return numberCell(b.delivery.Line.Breakpoint) }},
	{"line_breakpoint_ft", func(b ball) string { return numberCell(b.delivery.Line.BreakpointFt) }},
	{"speed_mph", func(b ball) string { return numberCell(b.delivery.SpeedMPH) }},
	{"bowled", func(b ball) string { return defused(b.delivery.Bowled) }},
	{"own", func(b ball) string { return b.delivery.Own.String() }},
	{"cue", func(b ball) string { return defused(b.delivery.Cue) }},
	{"note", func(b ball) string { return defused(b.delivery.Note) }},
}

// header gives the table's first row.
func header() []string {
	row := make([]string, len(columns))
	for i, c := range columns {
		row[i] = c.name
	}
	return row
}

// cells fills a row for a delivery.
func cells(row []string, b ball) []string {
	row = row[:0]
	for _, c := range columns {
		row = append(row, c.cell(b))
	}
	return row
}

// formulaStarts are the characters with which a spreadsheet begins a formula, the wide forms and the other minus signs
// included. Common practice, no source.
const formulaStarts = "=+-@＝＋－＠﹢﹣﹦﹫−"

// defused gives a text that a spreadsheet takes as a text: where it would run it as a formula, with an apostrophe before
// it, as where it begins with a tab or the end of a line, which may part cells. Blanks and what cannot be seen are passed
// over, as some spreadsheets do. The apostrophe is not taken off again: the table is for reading, the lines of Export are
// what can be read back.
func defused(s string) string {
	start := strings.TrimLeftFunc(s, func(r rune) bool { return !unicode.IsGraphic(r) || unicode.IsSpace(r) })
	first, _ := utf8.DecodeRuneInString(start)
	if start != "" && strings.ContainsRune(formulaStarts, first) || s != "" && strings.IndexByte("\t\r\n", s[0]) >= 0 {
		return "'" + s
	}
	return s
}

func timeCell(t time.Time) string { return t.UTC().Format(timeLayout) }

// countCell gives a count from 1, an empty cell for none.
func countCell(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func wholeCell(n model.Optional[int]) string {
	if !n.Known {
		return ""
	}
	return strconv.Itoa(n.Value)
}

func numberCell(x number) string {
	if !x.Known {
		return ""
	}
	return string(appendNumber(nil, x.Value))
}

// leaveCell parts the pins by blanks: with hyphens a spreadsheet takes two of them for a date.
func leaveCell(l tenpin.Leave) string {
	switch {
	case !l.Known:
		return ""
	case l.Pins == 0:
		return "none"
	}
	return strings.ReplaceAll(l.Pins.String(), "-", " ")
}

// seenCell gives what can only be said of a delivery that was seen.
func seenCell(d *model.Delivery, is bool) string {
	if !d.Seen {
		return ""
	}
	return strconv.FormatBool(is)
}
