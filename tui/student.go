package tui

import (
	"maps"
	"slices"

	"coach.settee/model"
)

// studentScreen is a student's record: what holds, what the first ten minutes said, and how the student is getting on. What
// a field takes is the model's to say.
type studentScreen struct {
	bindings table
	fields   []model.ProfileField
	// student is whose record is shown; marked is the field that the keys speak of, the one after the last is the intake.
	student model.ID
	marked  int
	// archived lists archived students too.
	archived bool
	// bared shows the texts that are not for every eye, until the next key.
	bared   bool
	editing editing
	found   finding
	intake  *intakeAsked
	facts   facts
}

func newStudentScreen() *studentScreen {
	return &studentScreen{bindings: slices.Concat(profileKeys, peopleKeys), fields: model.ProfileFields()}
}

func (s *studentScreen) title() string  { return "Student" }
func (s *studentScreen) about() string  { return "the student's record: goal, limits, notes" }
func (s *studentScreen) letter() string { return "s" }

func (s *studentScreen) table() table {
	if s.intake != nil && s.intake.at < len(intakeQuestions) {
		return s.intake.table()
	}
	return s.bindings
}

func (s *studentScreen) moment(*App) moment { return momentProfile }

// open turns to the student that the screen before speaks of; without one to the one shown last, or else the first.
func (s *studentScreen) open(a *App) {
	id := s.student
	switch a.screen {
	case screen(a.session):
		if marked := a.session.student(a); marked != "" {
			id = marked
		}
	case screen(a.strip):
		id = a.strip.student
	case screen(a.line):
		id = a.line.student
	case screen(a.board), screen(a.glance):
		if a.evening != nil {
			id, _ = a.evening.Speaking()
		}
	}
	s.marked = 0
	s.turnTo(id)
	s.settle(a)
}

// turnTo turns to a student, with the same field marked.
func (s *studentScreen) turnTo(id model.ID) {
	s.student, s.intake, s.facts = id, nil, facts{}
}

// settle turns to the first student where the one shown is there no more, and lets go of what a prompt was for that is gone.
func (s *studentScreen) settle(a *App) {
	if _, ok := a.students[s.student]; !ok {
		s.turnTo("")
		if all := s.byName(a); len(all) > 0 {
			s.turnTo(all[0])
		}
	}
	if s.intake != nil && s.intake.prompt != nil && s.intake.prompt != a.prompt {
		s.intake = nil
	}
}

// shown gives the student whose record is shown, false where nobody is kept.
func (s *studentScreen) shown(a *App) (model.Student, bool) {
	student, ok := a.students[s.student]
	return student, ok
}

// byName gives the students by name: archived ones only where they are listed, or where one is shown.
func (s *studentScreen) byName(a *App) []model.ID {
	student, _ := s.shown(a)
	var ids []model.ID
	for _, x := range model.FindStudents(a.everyone(), "", s.archived || student.Archived) {
		ids = append(ids, x.ID)
	}
	return ids
}

// turnBeside turns to the student a number of places after the one shown: of the evening's roster for one who is here, else
// by name, and around the end.
func (s *studentScreen) turnBeside(a *App, by int) {
	var ids []model.ID
	if s.seated(a) {
		for _, seat := range a.evening.Seats() {
			ids = append(ids, seat.Student)
		}
	} else {
		ids = s.byName(a)
	}
	n := len(ids)
	at := slices.Index(ids, s.student)
	s.turnTo(ids[((max(at, 0)+by)%n+n)%n])
}

// seated tells whether the student shown has a place in the evening that is open.
func (s *studentScreen) seated(a *App) bool {
	if a.evening == nil {
		return false
	}
	_, here := a.evening.SeatOf(s.student)
	return here
}

// intakeRow is the place of the intake among the rows.
func (s *studentScreen) intakeRow() int { return len(s.fields) }

// mark marks the field a number of rows after the one marked.
func (s *studentScreen) mark(by int) { s.marked = inList(s.marked+by, s.intakeRow()+1) }

// everyone gives all students that are kept, in no order.
func (a *App) everyone() []model.Student { return slices.Collect(maps.Values(a.students)) }

// labelOf names a student among all that are kept.
func (a *App) labelOf(id model.ID) string { return model.LabelAmong(a.students[id], a.everyone()) }
