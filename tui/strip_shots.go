package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// shotBlocks give what a professional asks for: each shot of one game that was not good with its cause, each lucky strike,
// own calls beside the coach's, and the hits by lane.
func (p stripPicture) shotBlocks(r insight.Report, w int) []figureBlock {
	var blocks []figureBlock
	if x := p.sheet(); x != nil && (p.shownPage() == pageStrip || p.shownPage() == pageGame) {
		notGood, lucky, own := shotsOf(x)
		blocks = append(blocks,
			append(p.listing("not good: ", notGood, w), p.listing("lucky strikes: ", lucky, w)...),
			p.listing("own call, coach: ", own, w),
		)
	}
	var lanes figureBlock
	for _, lane := range r.Outcome.Lanes {
		lanes = append(lanes, says(ink{}, w, lane.Sentence())...)
	}
	return append(blocks, lanes)
}

func (p stripPicture) listing(head string, of []string, w int) figureBlock {
	if len(of) == 0 {
		return nil
	}
	return says(ink{}, w, head+strings.Join(of, ", "))
}

// shotsOf names the full racks of a game that were not good, the lucky strikes, and those with an own call.
func shotsOf(x *model.Sheet) (notGood, lucky, own []string) {
	for i, d := range x.Deliveries {
		if d.Dead || !d.Seen || !x.Racks[i].Full || d.Grade() == model.Ungraded {
			continue
		}
		ball := strings.TrimSpace(ballName(d))
		if !d.Good() {
			cause := costOf(d.Letters, "")
			if d.Side != "" {
				cause += " " + sideWords(d)
			}
			notGood = append(notGood, ball+" "+cause)
		}
		if insight.ResultOf(d, x.Racks[i]) == insight.Lucky {
			lucky = append(lucky, ball)
		}
		if d.Own != model.Ungraded {
			own = append(own, fmt.Sprintf("%s %s %s", ball, d.Own, d.Grade()))
		}
	}
	return notGood, lucky, own
}
