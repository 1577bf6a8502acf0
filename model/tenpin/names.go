package tenpin

// Name is a usual name of the leave, "" if it has none. Names vary by region;
// these are common in newspapers and glossaries of the game.
func (s PinSet) Name() string {
	if name, ok := leaveNames[s]; ok {
		return name
	}
	return leaveNames[s.Mirror()]
}

// Words names the leave as it is told: "the 10 pin", "3-6-10", "2-8 (sleeper)".
func (s PinSet) Words() string {
	switch name := s.Name(); {
	case s.Count() == 1:
		return "the " + s.String() + " pin"
	case name != "":
		return s.String() + " (" + name + ")"
	}
	return s.String()
}

// leaveNames has each named leave once; its mirror image is called the same.
var leaveNames = map[PinSet]string{
	Pins(7, 10):             "bedposts",
	Pins(4, 6, 7, 10):       "big four",
	Pins(4, 6, 7, 9, 10):    "Greek church",
	Pins(3, 4, 6, 7, 10):    "big five",
	Pins(2, 4, 6, 7, 8, 10): "big six",
	Pins(3, 10):             "baby split",
	Pins(3, 9, 10):          "baby split with company",
	Pins(3, 7, 10):          "Christmas tree",
	Pins(5, 7):              "dime store",
	Pins(5, 7, 10):          "lily",
	Pins(7, 9):              "Cincinnati",
	Pins(2, 3):              "fit split",
	Pins(4, 5):              "fit split",
	Pins(7, 8):              "fit split",
	Pins(8, 9):              "fit split",
	Pins(2, 4, 5, 8):        "bucket",
	Pins(2, 8):              "sleeper",
	Pins(1, 5):              "double wood",
	Pins(1, 2, 10):          "washout",
	Pins(1, 2, 4, 10):       "washout",
	Pins(1, 7, 10):          "high-low-jack",
	Pins(1, 2, 4, 7):        "picket fence",
	Pins(6, 10):             "fast eight",
}
