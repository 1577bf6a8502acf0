package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
)

// changeWords says what a correction has changed of a delivery and of its game: "frame 7, ball 1 was 6, is X; score 151,
// was 147".
func changeWords(before, after *model.Sheet, delivery model.ID) string {
	was, is := deliveryOf(before, delivery), deliveryOf(after, delivery)
	var changes []string
	pinsWere, pinsAre := fallWords(before, was), fallWords(after, is)
	if pinsWere != pinsAre {
		changes = append(changes, fmt.Sprintf("was %s, is %s", pinsWere, pinsAre))
	}
	for _, c := range [][3]string{
		{"letters ", lettersSaid(was), lettersSaid(is)}, {"side ", sideWords(was), sideWords(is)}, {"hit ", shortHit(was, 40), shortHit(is, 40)},
		{"own call ", was.Own.String(), is.Own.String()}, {"cue ", clean(was.Cue), clean(is.Cue)},
	} {
		if c[1] != c[2] {
			changes = append(changes, fmt.Sprintf("%s%s, %s %s", c[0], orNone(c[2]), wereOrWas(c[0]), orNone(c[1])))
		}
	}
	if was.Note != is.Note {
		changes = append(changes, "note changed")
	}
	if was.Line != is.Line || was.SpeedMPH != is.SpeedMPH {
		changes = append(changes, "line changed")
	}
	if n := len(after.Deliveries) - len(before.Deliveries); n > 0 {
		changes = append(changes, plural(n, "ball", "balls")+" put in, unseen")
	} else if n < 0 {
		changes = append(changes, plural(-n, "ball", "balls")+" taken out")
	}
	if after.Game.Kind == model.KindGame && before.Tally.Score != after.Tally.Score {
		changes = append(changes, fmt.Sprintf("score %d, was %d", after.Tally.Score, before.Tally.Score))
	}
	words := nameOf(is)
	if pinsWere == pinsAre {
		words += ":"
	}
	return words + " " + strings.Join(changes, "; ")
}

func deliveryOf(x *model.Sheet, id model.ID) model.Delivery {
	if i := x.Index(id); i >= 0 {
		return x.Deliveries[i]
	}
	return model.Delivery{}
}

// nameOf names a delivery in its game.
func nameOf(d model.Delivery) string {
	if d.Frame > 0 {
		return fmt.Sprintf("frame %d, ball %d", d.Frame, d.Ball)
	}
	return fmt.Sprintf("ball %d", d.Seq)
}

// fallWords says what fell and which pins were left.
func fallWords(x *model.Sheet, d model.Delivery) string {
	var found model.Rack
	if i := x.Index(d.ID); i >= 0 {
		found = x.Racks[i]
	}
	words := pinWords(x, d, found)
	switch count, left, named := strings.Cut(words, " "); {
	case words == ".":
		return "not told"
	case named && !d.Dead:
		return count + " left " + left
	}
	return words
}

func lettersSaid(d model.Delivery) string {
	if !d.Seen {
		return "unseen"
	}
	return d.Letters.String()
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

func wereOrWas(what string) string {
	if what == "letters " {
		return "were"
	}
	return "was"
}
