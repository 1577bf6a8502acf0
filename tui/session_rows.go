package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
)

// seatRow is a student of the evening as the screen shows one.
type seatRow struct {
	// line is the student's line, more what else there is to say.
	line, more string
	student    model.ID
	marked     bool
}

// seatColumns are the cells of the pair and of the lanes, two blanks included.
type seatColumns struct{ pair, lanes int }

func columnsOf(seats []model.Seat) seatColumns {
	const apart = 2
	c := seatColumns{pair: 8, lanes: 12}
	for _, seat := range seats {
		c.pair, c.lanes = max(c.pair, width(seat.Pair().String())+apart), max(c.lanes, width(lanesOf(seat))+apart)
	}
	return c
}

// line puts what there is of a student into the columns, up to where the name begins.
func (c seatColumns) line(mark, pair, lanes, average, games, load string) string {
	return fmt.Sprintf("  %s%-*s%-*s%3s  %5s  %4s  ", mark, c.pair, pair, c.lanes, lanes, average, games, load)
}

func (s *sessionScreen) rows(a *App) []seatRow {
	var rows []seatRow
	columns := columnsOf(a.evening.Seats())
	for _, seat := range a.evening.Seats() {
		r := seatRow{student: seat.Student, marked: seat.Student == s.student(a), more: clean(s.seatWords(a, seat))}
		mark, ink := "  ", a.theme.strong
		if r.marked {
			mark, ink = "▶ ", a.theme.accent
		}
		student := a.evening.Student(seat.Student)
		average := "-"
		if student.Average.Known {
			average = strconv.Itoa(student.Average.Value)
		}
		r.line = columns.line(mark, seat.Pair().String(), lanesOf(seat), average, strconv.Itoa(a.evening.GamesBowled(seat.Student)),
			strconv.Itoa(a.evening.Load(seat.Student))) + ink.on(clean(a.evening.Label(seat.Student)))
		if careful(student, a.evening.Load(seat.Student)) {
			r.line += a.theme.alert.on(" !")
		}
		if seat.Out {
			r.line += a.theme.quiet.on("  out")
		}
		if student.Hand == model.LeftHand {
			r.line += a.theme.quiet.on(handWords(r.line, a.w))
		}
		rows = append(rows, r)
	}
	return rows
}

// handWords says behind a row of the roster that a student is left-handed, as far as w cells have room.
func handWords(row string, w int) string {
	for _, words := range []string{"  left-handed", "  L-hand"} {
		if width(row)+len(words) <= w {
			return words
		}
	}
	return ""
}

// What else there is to say of a student takes up to mostMore lines; the student marked has leastMore where others are not in
// view for it.
const mostMore, leastMore = 3, 2

// shown draws rows in some lines, each with what else there is to say below it: all of it where there is room for that, else
// its beginning, else nothing, but for the student marked. Where that is too much still, it is those around the one marked.
func (s *sessionScreen) shown(a *App, rows []seatRow, w, room int) []seatLine {
	var all []seatLine
	from, to, ofMarked := 0, 0, min(max(room-len(rows), leastMore), mostMore, room-1)
	for _, most := range []int{mostMore, 1, 0} {
		all = nil
		for _, r := range rows {
			if !r.marked {
				all = append(all, r.lines(a.theme, w, most)...)
				continue
			}
			from = len(all)
			all = append(all, r.lines(a.theme, w, ofMarked)...)
			to = len(all)
		}
		if len(all) <= room {
			return all
		}
	}
	first, end := inView(from, to, room, len(all))
	return all[first:end]
}

// seatLine is a line of the evening with the student whose it is, "" for nobody's.
type seatLine struct {
	text    string
	student model.ID
}

// lines gives a student's line and up to some lines below it.
func (r seatRow) lines(t *theme, w, most int) []seatLine {
	lines := []seatLine{{r.line, r.student}}
	for _, text := range r.below(t, w, most) {
		lines = append(lines, seatLine{text, r.student})
	}
	return lines
}

// below says what else there is to say of a student, in up to some lines.
func (r seatRow) below(t *theme, w, most int) []string {
	if r.more == "" || most < 1 {
		return nil
	}
	const in = 6
	lines := wrap(r.more, w-in)
	if len(lines) > most {
		rest := strings.Join(lines[most-1:], " ")
		lines = append(lines[:most-1], cut(rest, w-in))
	}
	for i := range lines {
		lines[i] = t.quiet.on(blanks(in) + lines[i])
	}
	return lines
}

// lanesOf gives the lane of odd frames, and the one of even frames for a student who alternates.
func lanesOf(seat model.Seat) string {
	if seat.Alternate {
		return fmt.Sprintf("%d, %d even", seat.Lane, seat.Pair().Other(seat.Lane))
	}
	return strconv.Itoa(seat.Lane)
}

// seatWords says what holds for a student tonight and what was left last time: that first until the student has bowled.
func (s *sessionScreen) seatWords(a *App, seat model.Seat) string {
	var tonight []string
	for _, part := range [][2]string{
		{"focus: ", a.evening.FocusOf(seat.Student)}, {"cue: ", seat.Cue}, {"watching ", seat.Watched.String()},
	} {
		if part[1] != "" {
			tonight = append(tonight, part[0]+part[1])
		}
	}
	words := []string{strings.Join(tonight, "; "), s.leftWords(a, seat.Student)}
	if a.evening.Load(seat.Student) == 0 {
		slices.Reverse(words)
	}
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), "; ")
}
