package model

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ClosingLine is what is still open, and what came about, of one student at the end of an evening.
type ClosingLine struct {
	Student ID
	Seat    Seat
	// Load is all deliveries; Good of Seen are the seen full racks of games, Unseen the full racks of games not watched.
	Load, Good, Seen, Unseen int
	Goal                     Goal
	// Games are the games by number: the totals that the overhead should show.
	Games []ClosingGame
	// NoCue and NoNote say that no delivery and no seat has a cue, and that nothing of the student has a note.
	NoCue, NoNote bool
	// Begun says that a call is begun for the student, which is in the way of closing.
	Begun bool
}

// ClosingGame is a game's total, known where it is, of an unfinished game the running one; Finished is false for one that
// was left open or stopped, Stopped true for the latter.
type ClosingGame struct {
	Title    string
	Total    Optional[int]
	Finished bool
	Stopped  bool
}

// Closing gives a line for everyone who is seated or bowled, in screen order, those without a seat last. A game that is
// begun and in which nothing was bowled is left out.
func (e *Evening) Closing() []ClosingLine {
	var lines []ClosingLine
	for _, seat := range e.Seats() {
		lines = append(lines, e.closingLine(seat))
	}
	var gone []ID
	for id := range e.games {
		if _, seated := e.SeatOf(id); !seated && e.Load(id) > 0 {
			gone = append(gone, id)
		}
	}
	slices.SortFunc(gone, func(a, b ID) int { return cmp.Or(cmp.Compare(e.Label(a), e.Label(b)), cmp.Compare(a, b)) })
	for _, id := range gone {
		lines = append(lines, e.closingLine(Seat{Student: id}))
	}
	return lines
}

func (e *Evening) closingLine(seat Seat) ClosingLine {
	l := ClosingLine{
		Student: seat.Student, Seat: seat, Load: e.Load(seat.Student), Goal: e.ChosenFor(seat.Student).Goal,
		NoCue: seat.Cue == "", NoNote: true, Begun: e.Begun(seat.Student),
	}
	for _, s := range e.Sheets(seat.Student) {
		l.NoNote = l.NoNote && s.Game.Note == ""
		for _, d := range s.Deliveries {
			l.NoCue = l.NoCue && d.Cue == ""
			l.NoNote = l.NoNote && d.Note == ""
		}
		if s.Game.Kind != KindGame || len(s.Deliveries) == 0 {
			continue
		}
		l.Good += s.Tally.Good
		l.Seen += s.Tally.Seen
		l.Unseen += s.Tally.Racks - s.Tally.Seen
		g := ClosingGame{Title: e.TitleOf(s.Game), Finished: s.Finished(), Stopped: s.Game.Stopped != ""}
		if frames := s.Card.Frames; len(frames) > 0 && frames[0].Known {
			g.Total = Known(s.Card.Score)
		}
		l.Games = append(l.Games, g)
	}
	return l
}

// Against holds totals typed as the overhead shows them, "143 157", against the games of the line, and says it in words:
// "both agree", "game 2: 152 here, 157 on the overhead". Finished games that nothing is typed for do not agree. An error says
// what cannot be read.
func (l ClosingLine) Against(text string) (words string, agree bool, err error) {
	totals, err := readTotals(text)
	if err != nil {
		return "", false, err
	}
	if len(totals) > len(l.Games) {
		return fmt.Sprintf("%s here, %d on the overhead", NumberOf(len(l.Games), "game"), len(totals)), false, nil
	}
	var other []string
	for i, g := range l.Games {
		switch {
		case i >= len(totals) && g.Finished:
			other = append(other, fmt.Sprintf("%s: %s here, nothing typed", g.Title, g.total()))
		case i < len(totals) && g.Total != Known(totals[i]):
			other = append(other, fmt.Sprintf("%s: %s here, %d on the overhead", g.Title, g.total(), totals[i]))
		}
	}
	switch {
	case len(other) > 0:
		return strings.Join(other, "; "), false, nil
	case len(totals) == 1:
		return "it agrees", true, nil
	case len(totals) == 2:
		return "both agree", true, nil
	}
	return fmt.Sprintf("all %d agree", len(totals)), true, nil
}

// readTotals reads the scores of games.
func readTotals(text string) ([]int, error) {
	var totals []int
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' }) {
		n, ok := whole(word)
		if !ok || n > 300 {
			return nil, fmt.Errorf("%q is no total of a game: write them in order, 143 157, each 0 to 300", word)
		}
		totals = append(totals, n)
	}
	if len(totals) == 0 {
		return nil, errors.New("no total is typed: write them in order, 143 157")
	}
	return totals, nil
}

// total says the game's total.
func (g ClosingGame) total() string {
	if !g.Total.Known {
		return "not known"
	}
	return fmt.Sprint(g.Total.Value)
}

// Asks gives what is still missing, in words for one line ("game 2 unfinished", "12 not seen", "no homework"), what matters
// most first, none where nothing is. Of a student who did not bowl only the next meeting is asked for.
func (l ClosingLine) Asks() []string {
	var asks []string
	if l.Begun {
		asks = append(asks, "call begun")
	}
	for _, g := range l.Games {
		if !g.Finished && !g.Stopped {
			asks = append(asks, g.Title+" unfinished")
		}
	}
	if l.Unseen > 0 {
		asks = append(asks, fmt.Sprintf("%d not seen", l.Unseen))
	}
	bowled, seated := l.Load > 0, l.Seat.Lane > 0
	for _, missing := range []struct {
		is   bool
		what string
	}{
		{bowled && seated && l.Seat.Homework == "", "no homework"},
		{seated && l.Seat.Next == "", "no date"},
		{bowled && l.NoCue, "no cue"},
		{bowled && l.NoNote, "no note"},
		{bowled && seated && l.Seat.Sentence == "", "no sentence"},
	} {
		if missing.is {
			asks = append(asks, missing.what)
		}
	}
	return asks
}
