package model

import "coach.settee/model/tenpin"

// Tally is what a game's, a drill's or a warm-up's deliveries add up to. It is kept beside the game, so that a
// student's history need not read every delivery.
type Tally struct {
	// Score is the last known running total, Max the highest still possible; both 0 outside games.
	Score, Max int
	// Complete tells whether the game or the drill has all its deliveries.
	Complete bool
	// Load is all deliveries, dead ones included. A warm-up has nothing else.
	Load int
	// Racks, Seen and Good count the full racks, those seen, and the good shots among them; Untouched those of the seen
	// that were graded without a letter key.
	Racks, Seen, Good, Untouched int
	// Strikes counts the full racks that were strikes, seen or not.
	Strikes int
	// SpareSeen and SpareGood count the spare shots seen and those of them that were good; SpareTried and SpareMade all
	// spare shots with known pins and those that left nothing.
	SpareSeen, SpareGood, SpareTried, SpareMade int
	Fouls                                       int
	// AxisPoints sums the letter points over the seen full racks on which the axis was watched, AxisSeen counts those.
	AxisPoints, AxisSeen [AxisCount]int
}

// add counts a delivery that is neither dead nor of a warm-up.
func (t *Tally) add(d Delivery, r Rack) {
	if d.Foul {
		t.Fouls++
	}
	cleared := d.Pins.Known && !d.Foul && r.Count > 0 && d.Pins.Value == r.Count
	if r.Full {
		t.addFullRack(d, cleared)
		return
	}
	if d.Pins.Known {
		t.SpareTried++
		if cleared {
			t.SpareMade++
		}
	}
	if d.Seen {
		t.SpareSeen++
		if d.Good() {
			t.SpareGood++
		}
	}
}

func (t *Tally) addFullRack(d Delivery, strike bool) {
	t.Racks++
	if strike {
		t.Strikes++
	}
	if !d.Seen {
		return
	}
	t.Seen++
	if !d.Touched {
		t.Untouched++
	}
	if d.Good() {
		t.Good++
	}
	for _, a := range Axes {
		if d.Letters[a] != NoLetter {
			t.AxisPoints[a] += d.Letters[a].Points()
			t.AxisSeen[a]++
		}
	}
}

// Rack is what a ball finds.
type Rack struct {
	// Standing are the pins, where they are known; Count is their number.
	Standing tenpin.Leave
	Count    int
	// Full tells whether the ball is at a full rack in the sense of the good count.
	Full bool
	// Frame (1 to 10) and Ball (1 to 3) are a game's; 0 otherwise.
	Frame, Ball int
}
