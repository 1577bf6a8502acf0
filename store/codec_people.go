package store

import "coach.settee/model"

func encodeCue(e *encoder, c model.Cue) {
	e.byte(byte(c.Axis))
	e.text(c.Text)
}

func decodeCue(d *decoder, id model.ID) model.Cue {
	return model.Cue{ID: id, Axis: model.Axis(d.byte()), Text: d.text()}
}

// The bits of a student's flags.
const (
	studentMinor = 1 << iota
	studentArchived
	studentAverage
	studentSpares
	studentMore
)

func encodeStudent(e *encoder, s model.Student) {
	var flags byte
	if s.Minor {
		flags |= studentMinor
	}
	if s.Archived {
		flags |= studentArchived
	}
	if s.Average.Known {
		flags |= studentAverage
	}
	if len(s.SpareLines) > 0 {
		flags |= studentSpares
	}
	more := s.AverageOn != "" || s.BallUp != "" || s.Intake != model.Intake{}
	if more {
		flags |= studentMore
	}
	e.byte(flags)
	e.text(s.Name)
	word(e, handWords, s.Hand)
	word(e, styleWords, s.Style)
	if s.Average.Known {
		e.count(s.Average.Value)
	}
	word(e, levelWords, s.Level)
	e.byte(byte(s.Bar))
	e.count(int(s.Goal))
	e.weights(s.Weights)
	word(e, toneWords, s.Tone)
	e.letters(s.Start)
	e.byte(byte(s.Watched))
	e.numbers(s.SlideOffset, s.SpeedMPH, s.RevRPM, s.AxisRotation)
	e.count(len(s.Balls))
	for _, ball := range s.Balls {
		e.text(ball)
	}
	e.text(s.Focus)
	e.text(s.Limits)
	e.count(s.LoadLimit)
	e.text(s.Notes)
	if flags&studentSpares != 0 {
		e.count(len(s.SpareLines))
		for _, l := range s.SpareLines {
			e.count(l.Pin)
			e.line(l.Line)
		}
	}
	if more {
		e.text(s.AverageOn)
		e.text(s.BallUp)
		encodeIntake(e, s.Intake)
	}
}

func encodeIntake(e *encoder, i model.Intake) {
	e.text(i.On)
	word(e, motionWords, i.Motion)
	word(e, directionWords, i.Direction)
	word(e, handAtWords, i.HandAt)
	word(e, timingWords, i.Timing)
	word(e, learningWords, i.Learns)
	e.text(i.Hurts)
}

func decodeStudent(d *decoder, id model.ID) model.Student {
	flags := d.byte()
	s := model.Student{
		ID: id, Minor: flags&studentMinor != 0, Archived: flags&studentArchived != 0,
		Name: d.text(), Hand: readWord[model.Hand](d, handWords), Style: readWord[model.Style](d, styleWords),
	}
	if flags&studentAverage != 0 {
		s.Average = model.Known(d.count())
	}
	s.Level = readWord[model.Level](d, levelWords)
	s.Bar, s.Goal = model.ShotGrade(d.byte()), model.Goal(d.count())
	s.Weights, s.Tone = d.weights(), readWord[model.Tone](d, toneWords)
	s.Start, s.Watched = d.letters(), model.AxisSet(d.byte())
	d.numbers(&s.SlideOffset, &s.SpeedMPH, &s.RevRPM, &s.AxisRotation)
	for range d.items() {
		s.Balls = append(s.Balls, d.text())
	}
	s.Focus, s.Limits, s.LoadLimit, s.Notes = d.text(), d.text(), d.count(), d.text()
	if flags&studentSpares != 0 {
		for range d.items() {
			s.SpareLines = append(s.SpareLines, model.SpareLine{Pin: d.count(), Line: d.line()})
		}
	}
	if flags&studentMore != 0 {
		s.AverageOn, s.BallUp, s.Intake = d.text(), d.text(), decodeIntake(d)
	}
	return s
}

func decodeIntake(d *decoder) model.Intake {
	return model.Intake{
		On: d.text(), Motion: readWord[model.Motion](d, motionWords), Direction: readWord[model.Direction](d, directionWords),
		HandAt: readWord[model.HandAt](d, handAtWords), Timing: readWord[model.Timing](d, timingWords),
		Learns: readWord[model.Learning](d, learningWords), Hurts: d.text(),
	}
}
