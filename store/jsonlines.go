package store

import "coach.settee/model"

// field is one key of an object of the exchange format: when it is there, how it is written and how it is read.
type field[T any] struct {
	key string
	// when tells whether the key is written; nil for always.
	when func(*T) bool
	// must says that a line without the key is refused where when asks for it, and one with the key where it does not.
	must  bool
	write func([]byte, *T) []byte
	read  func(*lineReader, *T)
}

// Bounds of what a line may say where the model has none. They are wide of anything that happens at the lanes and keep
// nonsense out.
const (
	maxCount     = 1_000_000 // of deliveries in a game, of games in an evening
	maxFeet      = 60.0      // from the foul line to the head pin
	maxOffset    = 40.0      // boards
	maxHit       = 20.0      // boards
	maxMPH       = 40.0
	maxRPM       = 1000.0
	maxTurn      = 180.0 // degrees
	maxList      = 200   // entries
	minBreakFeet = 20.0
)

// The objects of the format, their keys in the order in which they are written. The type, which comes first in each, is
// not among them.
var (
	cueFields      = makeCueFields()
	spareFields    = makeSpareFields()
	intakeFields   = makeIntakeFields()
	studentFields  = makeStudentFields()
	sessionFields  = makeSessionFields()
	seatFields     = makeSeatFields()
	gameFields     = makeGameFields()
	deliveryFields = makeDeliveryFields()
	lineFields     = makeLineFields(func(l *model.Line) *model.Line { return l })
	aimFields      = makeAimFields()
)

func makeCueFields() []field[model.Cue] {
	return []field[model.Cue]{
		always(idField("id", func(c *model.Cue) *model.ID { return &c.ID })),
		always(axisField("axis", func(c *model.Cue) *model.Axis { return &c.Axis })),
		always(textField("text", func(c *model.Cue) *string { return &c.Text })),
	}
}

func makeStudentFields() []field[model.Student] {
	type S = model.Student
	return []field[S]{
		always(idField("id", func(s *S) *model.ID { return &s.ID })),
		always(textField("name", func(s *S) *string { return &s.Name })),
		always(wordField("hand", func(s *S) *model.Hand { return &s.Hand }, model.RightHand, model.LeftHand)),
		wordField("style", func(s *S) *model.Style { return &s.Style }, model.OneHand, model.TwoHand, model.NoThumb),
		knownWhole("average", 0, 300, func(s *S) *model.Optional[int] { return &s.Average }),
		wordField("level", func(s *S) *model.Level { return &s.Level }, model.Levels[:]...),
		gradeField("bar", func(s *S) *model.ShotGrade { return &s.Bar }),
		goalField("goal", func(s *S) *model.Goal { return &s.Goal }),
		weightsField("weights", func(s *S) *model.Weights { return &s.Weights }),
		wordField("tone", func(s *S) *model.Tone { return &s.Tone }, model.Gentle, model.Plain, model.Blunt),
		chosenLetters("start", func(s *S) *model.Letters { return &s.Start }),
		axesField("watched", func(s *S) *model.AxisSet { return &s.Watched }),
		numberField("slide_offset", -maxOffset, maxOffset, func(s *S) *number { return &s.SlideOffset }),
		numberField("speed_mph", 0, maxMPH, func(s *S) *number { return &s.SpeedMPH }),
		numberField("rev_rpm", 0, maxRPM, func(s *S) *number { return &s.RevRPM }),
		numberField("axis_rotation_deg", -maxTurn, maxTurn, func(s *S) *number { return &s.AxisRotation }),
		textsField("balls", func(s *S) *[]string { return &s.Balls }),
		textField("focus", func(s *S) *string { return &s.Focus }),
		textField("limits", func(s *S) *string { return &s.Limits }),
		wholeField("load_limit", 1, maxCount, func(s *S) *int { return &s.LoadLimit }),
		always(flagField("minor", func(s *S) *bool { return &s.Minor })),
		textField("notes", func(s *S) *string { return &s.Notes }),
		always(flagField("archived", func(s *S) *bool { return &s.Archived })),
		objectsField("spare_lines", spareFields, func(s *S) *[]model.SpareLine { return &s.SpareLines }),
		textField("average_on", func(s *S) *string { return &s.AverageOn }),
		textField("ball_up", func(s *S) *string { return &s.BallUp }),
		objectField("intake", intakeFields, func(s *S) *model.Intake { return &s.Intake }),
	}
}

func makeIntakeFields() []field[model.Intake] {
	type I = model.Intake
	return []field[I]{
		always(dateField("on", func(i *I) *string { return &i.On })),
		wordField("motion", func(i *I) *model.Motion { return &i.Motion }, model.Motions...),
		wordField("direction", func(i *I) *model.Direction { return &i.Direction }, model.Directions...),
		wordField("hand_at", func(i *I) *model.HandAt { return &i.HandAt }, model.HandsAt...),
		wordField("timing", func(i *I) *model.Timing { return &i.Timing }, model.Timings...),
		wordField("learns", func(i *I) *model.Learning { return &i.Learns }, model.Learnings...),
		textField("hurts", func(i *I) *string { return &i.Hurts }),
	}
}

func makeSpareFields() []field[model.SpareLine] {
	pin := always(wholeField("pin", 1, 10, func(l *model.SpareLine) *int { return &l.Pin }))
	return append([]field[model.SpareLine]{pin}, makeLineFields(func(l *model.SpareLine) *model.Line { return &l.Line })...)
}

func makeSessionFields() []field[model.Session] {
	type S = model.Session
	return []field[S]{
		always(idField("id", func(s *S) *model.ID { return &s.ID })),
		always(timeField("at", func(s *S) *instant { return &s.At })),
		textField("place", func(s *S) *string { return &s.Place }),
		numberField("pattern_ft", 0, maxFeet, func(s *S) *number { return &s.PatternFt }),
		numberField("arrows_ft", 0, maxFeet, func(s *S) *number { return &s.ArrowsFt }),
		always(pairsField("pairs", func(s *S) *[]model.Pair { return &s.Pairs })),
		always(flagField("rotate", func(s *S) *bool { return &s.Rotate })),
		always(rosterField("roster", func(s *S) *[]model.Seat { return &s.Roster })),
		timeField("closed", func(s *S) *instant { return &s.Closed }),
		flagField("block", func(s *S) *bool { return &s.Block }),
		textField("pattern_kind", func(s *S) *string { return &s.PatternKind }),
		timeField("oiled", func(s *S) *instant { return &s.Oiled }),
		textField("before", func(s *S) *string { return &s.Before }),
	}
}

func makeSeatFields() []field[seatLine] {
	type S = seatLine
	return []field[S]{
		always(idField("student", func(s *S) *model.ID { return &s.Student })),
		always(wholeField("lane", 1, model.MaxLane, func(s *S) *int { return &s.Lane })),
		always(wholeField("order", 1, maxCount, func(s *S) *int { return &s.Order })),
		always(flagField("alternate", func(s *S) *bool { return &s.Alternate })),
		always(flagField("out", func(s *S) *bool { return &s.Out })),
		textField("cue", func(s *S) *string { return &s.Cue }),
		textField("focus", func(s *S) *string { return &s.Focus }),
		textField("homework", func(s *S) *string { return &s.Homework }),
		dateField("next", func(s *S) *string { return &s.Next }),
		objectsField("aimed", aimFields, func(s *S) *[]aim { return &s.aims }),
		textField("sentence", func(s *S) *string { return &s.Sentence }),
		axesField("watched", func(s *S) *model.AxisSet { return &s.Watched }),
		goalField("goal", func(s *S) *model.Goal { return &s.Goal }),
	}
}

func makeGameFields() []field[model.Game] {
	type G = model.Game
	return []field[G]{
		always(idField("id", func(g *G) *model.ID { return &g.ID })),
		always(idField("session", func(g *G) *model.ID { return &g.Session })),
		always(idField("student", func(g *G) *model.ID { return &g.Student })),
		always(wholeField("number", 1, maxCount, func(g *G) *int { return &g.Number })),
		always(wordField("kind", func(g *G) *model.Kind { return &g.Kind },
			model.KindGame, model.KindDrill, model.KindWarmup)),
		textField("name", func(g *G) *string { return &g.Name }),
		wholeField("length", 1, model.MaxDrill, func(g *G) *int { return &g.Length }),
		pinsField("pins", func(g *G) *pinSet { return &g.Pins }),
		textField("stopped", func(g *G) *string { return &g.Stopped }),
		textField("note", func(g *G) *string { return &g.Note }),
	}
}

func makeDeliveryFields() []field[model.Delivery] {
	type D = model.Delivery
	inGame := func(d *D) bool { return d.Frame > 0 || d.Ball > 0 }
	seen := func(d *D) bool { return d.Seen }
	return []field[D]{
		always(idField("id", func(d *D) *model.ID { return &d.ID })),
		always(idField("game", func(d *D) *model.ID { return &d.Game })),
		always(wholeField("seq", 1, maxCount, func(d *D) *int { return &d.Seq })),
		always(timeField("at", func(d *D) *instant { return &d.At })),
		always(wholeField("lane", 1, model.MaxLane, func(d *D) *int { return &d.Lane })),
		exactlyWhen(inGame, wholeField("frame", 1, 10, func(d *D) *int { return &d.Frame })),
		exactlyWhen(inGame, wholeField("ball", 1, 3, func(d *D) *int { return &d.Ball })),
		exactlyWhen(seen, lettersField("letters", func(d *D) *model.Letters { return &d.Letters })),
		exactlyWhen(seen, flagField("touched", func(d *D) *bool { return &d.Touched })),
		always(weightsField("weights", func(d *D) *model.Weights { return &d.Weights })),
		always(gradeField("bar", func(d *D) *model.ShotGrade { return &d.Bar })),
		always(wordField("level", func(d *D) *model.Level { return &d.Level }, model.Levels[:]...)),
		always(flagField("seen", func(d *D) *bool { return &d.Seen })),
		always(flagField("dead", func(d *D) *bool { return &d.Dead })),
		leaveField("standing", func(d *D) *leave { return &d.After }),
		knownWhole("pins", 0, 10, func(d *D) *model.Optional[int] { return &d.Pins }),
		always(flagField("foul", func(d *D) *bool { return &d.Foul })),
		wordField("side", func(d *D) *model.Side { return &d.Side }, model.Inside, model.Outside),
		wholeField("side_boards", 0, maxCount, func(d *D) *int { return &d.SideBoards }),
		wordField("hit", func(d *D) *model.Hit { return &d.Hit },
			model.Pocket, model.High, model.Nose, model.Brooklyn, model.Light, model.Missed),
		numberField("hit_boards", -maxHit, maxHit, func(d *D) *number { return &d.HitBoards }),
		objectField("aimed", lineFields, func(d *D) *model.Line { return &d.Aimed }),
		objectField("line", lineFields, func(d *D) *model.Line { return &d.Line }),
		numberField("speed_mph", 0, maxMPH, func(d *D) *number { return &d.SpeedMPH }),
		textField("bowled", func(d *D) *string { return &d.Bowled }),
		gradeField("own", func(d *D) *model.ShotGrade { return &d.Own }),
		textField("cue", func(d *D) *string { return &d.Cue }),
		textField("note", func(d *D) *string { return &d.Note }),
	}
}

func makeLineFields[T any](at func(*T) *model.Line) []field[T] {
	return []field[T]{
		numberField("arrows", 0, model.MaxBoard, func(v *T) *number { return &at(v).Arrows }),
		numberField("slide", 0, model.MaxBoard, func(v *T) *number { return &at(v).Slide }),
		numberField("breakpoint", 0, model.MaxBoard, func(v *T) *number { return &at(v).Breakpoint }),
		numberField("breakpoint_ft", minBreakFeet, maxFeet, func(v *T) *number { return &at(v).BreakpointFt }),
	}
}
