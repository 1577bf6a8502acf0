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
	marked     bool
}

func (s *sessionScreen) rows(a *App) []seatRow {
	var rows []seatRow
	for _, seat := range a.evening.Seats() {
		r := seatRow{marked: seat.Student == s.student(a), more: clean(s.seatWords(a, seat))}
		mark, ink := "  ", a.theme.strong
		if r.marked {
			mark, ink = "▶ ", a.theme.accent
		}
		student := a.evening.Student(seat.Student)
		average := "-"
		if student.Average.Known {
			average = strconv.Itoa(student.Average.Value)
		}
		r.line = fmt.Sprintf("  %s%-8s%-12s%3s  %5d  %4d  ", mark, seat.Pair(), lanesOf(seat), average,
			len(a.evening.Sheets(seat.Student)), a.evening.Load(seat.Student)) + ink.on(clean(a.evening.Label(seat.Student)))
		if student.Limits != "" {
			r.line += a.theme.alert.on(" !")
		}
		if seat.Out {
			r.line += a.theme.quiet.on("  out")
		}
		rows = append(rows, r)
	}
	return rows
}

// What else there is to say of a student takes up to mostMore lines; the student marked has leastMore where others are not in
// view for it.
const mostMore, leastMore = 3, 2

// shown draws rows in some lines, each with what else there is to say below it: all of it where there is room for that, else
// its beginning, else nothing, but for the student marked. Where that is too much still, it is those around the one marked.
func (s *sessionScreen) shown(a *App, rows []seatRow, w, room int) []string {
	var all []string
	end, ofMarked := 0, min(max(room-len(rows), leastMore), mostMore, room-1)
	for _, most := range []int{mostMore, 1, 0} {
		all = nil
		for _, r := range rows {
			if !r.marked {
				all = append(append(all, r.line), r.below(a.theme, w, most)...)
				continue
			}
			all = append(append(all, r.line), r.below(a.theme, w, ofMarked)...)
			end = len(all)
		}
		if len(all) <= room {
			return all
		}
	}
	first := max(end-room, 0)
	return all[first:min(first+room, len(all))]
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
