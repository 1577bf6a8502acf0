package insight

import (
	"fmt"
	"strings"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// Counts are the counts over games, and the load over everything.
type Counts struct {
	// Good are the good shots of the seen full racks; UntouchedGood those of the good, Untouched those of the seen that
	// were graded without a letter key.
	Good                     Part
	Untouched, UntouchedGood int
	// Unseen are the full racks that nobody watched.
	Unseen int
	// Spare are the good ones of the seen spare shots.
	Spare                       Part
	SpareUntouched, SpareUnseen int
	Fouls                       int
	// Load is every delivery: of warm-ups and drills, unseen and dead ones too.
	Load int
}

// GameCount is one game's counts.
type GameCount struct {
	Game   model.Game
	At     time.Time
	Counts Counts
	// Score is the running total, final where Complete.
	Score    int
	Complete bool
}

// DrillCount is what the drills of one name and at the same pins come to.
type DrillCount struct {
	Name string
	// Pins are what each delivery found.
	Pins tenpin.PinSet
	// Balls are the deliveries that were not dead, Good the good ones of those seen, Made those that took all that stood,
	// of those with known pins.
	Balls      int
	Good, Made Part
}

// CountsMethod names how the interval of a rate is reckoned.
const CountsMethod = "wilson 95%"

// Words gives "8 good of 22 seen, 3 untouched, 2 unseen"; what there is none of is left out.
func (c Counts) Words() string {
	words := "none seen"
	if c.Good.Of > 0 {
		words = fmt.Sprintf("%d good of %d seen", c.Good.N, c.Good.Of)
	}
	if c.Untouched > 0 {
		words += fmt.Sprintf(", %d untouched", c.Untouched)
	}
	if c.Unseen > 0 {
		words += fmt.Sprintf(", %d unseen", c.Unseen)
	}
	return words
}

// WordsRate gives "36% good; 20% to 57% in the long run", with the Wilson interval.
func (c Counts) WordsRate() string {
	if c.Good.Of < fewestForRate {
		return "good rate: too few to say"
	}
	long := c.Good.Wilson().Value
	return fmt.Sprintf("%s good; %.0f%% to %.0f%% in the long run", c.Good.Percent(), 100*long.Low, 100*long.High)
}

// WordsSpare gives "spare shots: 4 good of 9 seen, 1 unseen".
func (c Counts) WordsSpare() string {
	shots := Counts{Good: c.Spare, Untouched: c.SpareUntouched, Unseen: c.SpareUnseen}
	return "spare shots: " + shots.Words()
}

// Words gives "corner 10 at 10: 7 of 10 made, 6 of 9 good"; the made are left out where no pins were named.
func (d DrillCount) Words() string {
	name := d.Name
	if name == "" {
		name = "drill"
	}
	if d.Pins != tenpin.AllPins {
		name += " at " + d.Pins.String()
	}
	var told []string
	if d.Made.Of > 0 {
		told = append(told, d.Made.String()+" made")
	}
	if d.Good.Of > 0 {
		told = append(told, d.Good.String()+" good")
	}
	switch {
	case len(told) == 0 && d.Balls == 1:
		told = append(told, "1 ball")
	case len(told) == 0:
		told = append(told, fmt.Sprintf("%d balls", d.Balls))
	}
	return name + ": " + strings.Join(told, ", ")
}

func countsOf(over []model.DatedSheet) Counts {
	var c Counts
	for _, b := range over {
		c.Load += len(b.Deliveries)
		if b.Game.Kind != model.KindGame {
			continue
		}
		for i := range b.Deliveries {
			c.add(&b.Deliveries[i], b.Racks[i].Full)
		}
	}
	return c
}

// add counts a delivery of a game.
func (c *Counts) add(d *model.Delivery, full bool) {
	if d.Dead {
		return
	}
	if d.Foul {
		c.Fouls++
	}
	good, untouched := d.Good(), d.Seen && !d.Touched
	if !full {
		c.Spare = c.Spare.with(good, d.Seen)
		c.SpareUntouched += one(untouched)
		c.SpareUnseen += one(!d.Seen)
		return
	}
	c.Good = c.Good.with(good, d.Seen)
	c.Untouched += one(untouched)
	c.UntouchedGood += one(untouched && good)
	c.Unseen += one(!d.Seen)
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

func byGame(games []model.DatedSheet) []GameCount {
	out := make([]GameCount, len(games))
	for i, g := range games {
		out[i] = GameCount{
			Game: g.Game, At: g.At, Counts: countsOf(games[i : i+1]),
			Score: g.Card.Score, Complete: g.Card.Complete,
		}
	}
	return out
}

// drillsOf puts drills of one name, whatever its capitals, and of the same pins together, in order of the first of each.
func drillsOf(over []model.DatedSheet) []DrillCount {
	type drill struct {
		name string
		pins tenpin.PinSet
	}
	at := map[drill]int{}
	var out []DrillCount
	for n := range over {
		g := over[n].Game
		if g.Kind != model.KindDrill {
			continue
		}
		key := drill{strings.ToLower(g.Name), g.Rack()}
		i, has := at[key]
		if !has {
			i = len(out)
			at[key] = i
			out = append(out, DrillCount{Name: g.Name, Pins: g.Rack()})
		}
		for x := range eachShot(over[n : n+1]) {
			out[i].Balls++
			out[i].Good = out[i].Good.with(x.Good(), x.Seen)
			out[i].Made = out[i].Made.with(x.cleared(), x.Pins.Known)
		}
	}
	return out
}
