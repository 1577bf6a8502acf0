package lane

import (
	"fmt"
	"math"
	"strings"

	"coach.settee/model"
)

// SpareLeftOut says what the spare table does not reckon with; it belongs beside the table.
const SpareLeftOut = "By first contacts: the ball goes straight on through the pins and does not deflect. " +
	"Which leaves are listed and which are shot across the lane is common practice."

// Words tell how a leave is shot, for the student's hand, in whole boards: "2-8: feet 3 right, target stays; 1 right of the 2".
func (s Spare) Words(hand model.Hand) string {
	parts := []string{s.Leave.Words() + ": " + s.how(hand)}
	theirs := s.From == FromOwn || s.From == FromTonight
	if s.Outside.Known && !theirs {
		parts = append(parts, s.where(hand))
	}
	switch {
	case s.Gutter:
		parts = append(parts, "the strike ball would be in the gutter")
	case s.From == FromOwn:
		parts = append(parts, "own line, kept")
	case s.From == FromTonight:
		parts = append(parts, "as read tonight")
	case s.From == Computed:
		parts = append(parts, "computed for a straight ball")
	}
	switch {
	case theirs:
	case !s.Takes:
		parts = append(parts, "does not clear it")
	case s.Room < 2*keepAway:
		parts = append(parts, s.room())
	}
	return strings.Join(parts, "; ")
}

// how tells the move from the strike line, or the line itself where there is none to move from.
func (s Spare) how(hand model.Hand) string {
	if s.Move.Known {
		if s.Move.Value == (Move{}) {
			return "the strike line"
		}
		return s.Move.Value.Words(hand)
	}
	var parts []string
	if s.Line.Slide.Known {
		parts = append(parts, fmt.Sprintf("slide %g", s.Line.Slide.Value))
	}
	if s.Line.Arrows.Known {
		parts = append(parts, fmt.Sprintf("target %g", s.Line.Arrows.Value))
	}
	return strings.Join(parts, ", ")
}

// where tells where the ball passes the key pin, to the nearest board.
func (s Spare) where(hand model.Hand) string {
	boards := int(math.Round(s.Outside.Value))
	if boards == 0 {
		return fmt.Sprintf("full on the %d", s.Key)
	}
	return fmt.Sprintf("%s of the %d", toward(-boards, hand), s.Key)
}

// room tells over how many boards at the key pin the leave is cleared, to the nearest board; it is told where a student's
// scatter needs all of it.
func (s Spare) room() string {
	switch boards := math.Round(s.Room); boards {
	case 0:
		return "less than half a board of room"
	case 1:
		return "1 board of room"
	default:
		return fmt.Sprintf("%.0f boards of room", boards)
	}
}
