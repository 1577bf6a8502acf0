package tui

// lister is a screen with a list of which the mouse marks a row.
type lister interface {
	// rowAt gives the row that is drawn at a cell of the picture in w and h, counted from 0.
	rowAt(a *App, x, y, w, h int) (row int, ok bool)
	markRow(a *App, row int)
}

func (s *sessionScreen) rowAt(a *App, _, y, w, h int) (int, bool) {
	if s.earlier != nil {
		return s.earlier.rowAt(y, h)
	}
	if a.evening == nil {
		return 0, false
	}
	lines := s.evening(a, w, h-len(a.open))
	if y >= len(lines) || lines[y].student == "" {
		return 0, false
	}
	for i, seat := range a.evening.Seats() {
		if seat.Student == lines[y].student {
			return i, true
		}
	}
	return 0, false
}

func (s *sessionScreen) markRow(a *App, row int) {
	if s.earlier != nil {
		s.earlier.at = row
		return
	}
	s.marked = a.evening.Seats()[row].Student
}

func (l *earlierList) rowAt(y, h int) (int, bool) {
	first, end := inView(l.at, l.at+1, l.room(h), len(l.sessions))
	row := first + y - earlierHead
	return row, row >= first && row < end
}

func (s *closingScreen) rowAt(a *App, _, y, w, h int) (int, bool) {
	students := closingLines(a.evening.Closing())
	if len(students) == 0 {
		return 0, false
	}
	at := s.place(students)
	room := closingRoom(h, len(s.notes(a, students[at], w)), len(students))
	first, end := inView(at, at+1, room, len(students))
	row := first + y - closingHead
	return row, row >= first && row < end
}

func (s *closingScreen) markRow(a *App, row int) { s.marked = a.evening.Closing()[row].Student }

func (s *cuesScreen) rowAt(_ *App, _, y, _, h int) (int, bool) {
	lines := s.inList(listLines(h))
	if y < 1 || y > len(lines) {
		return 0, false
	}
	row := lines[y-1].row
	return row, row >= 0
}

func (s *cuesScreen) markRow(_ *App, row int) { s.at = row }

func (s *studentScreen) rowAt(a *App, x, y, w, h int) (int, bool) {
	if _, ok := s.shown(a); !ok || s.intake != nil || s.bared || s.isFinding(a) {
		return 0, false
	}
	cells, room := w, h-1
	if w >= besideFacts {
		cells = fieldCells(w)
	} else {
		room -= len(s.factBlock(a, w, mostFacts(h)))
	}
	_, rows, first, end := s.fieldLines(a, cells, room)
	at := first + y - 1
	if x >= cells || at < first || at >= end {
		return 0, false
	}
	return rows[at], true
}

func (s *studentScreen) markRow(_ *App, row int) { s.marked = row }

func (s *stripScreen) rowAt(a *App, x, y, w, h int) (int, bool) {
	if x >= listColumns(w).all {
		return 0, false
	}
	return s.picture(a, w, h).deliveryAt(y)
}

func (s *stripScreen) markRow(a *App, row int) {
	if s.mayGo(a) {
		s.choose(row)
	}
}
