package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/store"
)

// handoutFile is a page with the name of its file.
type handoutFile struct{ name, page string }

// write writes pages into the folder or the file of --out, where they replace what is there and that is said; without --out
// into the working directory, where nothing is replaced. It tells each path.
func (w handoutWanted) write(told io.Writer, storeFile string, pages ...handoutFile) error {
	for i := range pages {
		switch {
		case w.all:
			pages[i].name = filepath.Join(w.out, pages[i].name)
		case w.named && isFolder(w.out):
			pages[i].name = filepath.Join(w.out, pages[i].name)
		case w.named:
			pages[i].name = w.out
		}
		if err := w.mayWrite(pages[i].name, storeFile); err != nil {
			return err
		}
	}
	if w.all && w.named {
		if err := os.MkdirAll(w.out, 0o700); err != nil {
			return fmt.Errorf("no folder for the handouts: %w", inFileWords(w.out, false, err))
		}
	}
	for _, p := range pages {
		said := "wrote"
		if _, err := os.Stat(p.name); err == nil {
			said = "replaced"
		}
		if err := replaceFile(p.name, func(w io.Writer) error { _, err := io.WriteString(w, p.page); return err }); err != nil {
			return fmt.Errorf("cannot write the handout: %w", inFileWords(p.name, false, err))
		}
		if _, err := fmt.Fprintln(told, said, p.name); err != nil {
			return err
		}
	}
	return nil
}

// isFolder tells whether a name is a folder's: of one that is there, or ends as only a folder's does.
func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// mayWrite tells why a file is not to be written, or nil.
func (w handoutWanted) mayWrite(name, storeFile string) error {
	same, err := sameFile(name, storeFile)
	switch {
	case err != nil:
		return fmt.Errorf("cannot write the handout: %w", inFileWords(name, false, err))
	case same:
		return fmt.Errorf("%s is the store itself: name another file for the handout", name)
	}
	there, err := os.Stat(name)
	switch {
	case err == nil && there.IsDir():
		return fmt.Errorf("%s is a folder: name a file in it", name)
	case w.named:
		return nil
	}
	if _, err := os.Lstat(name); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is there already: --out %s replaces it, or name another", name, w.replacing(name))
	}
	return nil
}

// replacing gives what --out has to be for a file to be replaced.
func (w handoutWanted) replacing(name string) string {
	if w.all {
		return "."
	}
	return name
}

// allHandouts writes a page for everyone who bowled in an evening, and names who did not.
func allHandouts(told io.Writer, s *store.Store, wanted handoutWanted) error {
	evening, sessions, err := eveningWanted(s, wanted.session)
	if err != nil {
		return err
	}
	students, err := s.Students()
	if err != nil {
		return err
	}
	inputs, without, err := handoutInputs(s, evening, students)
	switch {
	case err != nil:
		return err
	case len(inputs) == 0:
		return fmt.Errorf("nobody bowled in session %s: there is nothing to hand out", evening.ID)
	}
	pages := make([]handoutFile, len(inputs))
	for i, in := range inputs {
		page, err := wanted.page(in)
		if err != nil {
			return err
		}
		pages[i] = handoutFile{wanted.fileName(in, sessions, students), page}
	}
	if err := wanted.write(told, s.Path(), pages...); err != nil {
		return err
	}
	if len(without) > 0 {
		_, err = fmt.Fprintf(told, "nothing bowled, so no handout: %s\n", strings.Join(without, ", "))
	}
	return err
}

// handoutInputs reads what the page of everyone in an evening is made from, and names who bowled nothing.
func handoutInputs(s *store.Store, evening model.Session, students []model.Student) (inputs []handout.Input, without []string, err error) {
	for _, seat := range evening.Roster {
		i := slices.IndexFunc(students, func(x model.Student) bool { return x.ID == seat.Student })
		h, err := s.History(seat.Student, eveningScope(evening.ID))
		switch {
		case err != nil:
			return nil, nil, err
		case i < 0:
		case len(h.Over) == 0:
			without = append(without, students[i].Name)
		default:
			inputs = append(inputs, handout.NewInput(students[i], evening, time.Local, h.Over, h.Earlier, h.First))
		}
	}
	return inputs, without, nil
}

// eveningWanted gives the evening with an id, the last one where none is given, with all that are kept.
func eveningWanted(s *store.Store, id model.ID) (wanted model.Session, all []model.Session, err error) {
	if all, err = s.Sessions(); err != nil {
		return model.Session{}, nil, err
	}
	for _, evening := range slices.Backward(all) {
		if id == "" || evening.ID == id {
			return evening, all, nil
		}
	}
	if id == "" {
		return model.Session{}, nil, errors.New("no evening is kept yet: there is nothing to hand out")
	}
	return model.Session{}, nil, fmt.Errorf("no session %s is kept: settee stats STUDENT --json lists the sessions with the games", id)
}

// fileName names a page after its student and evening, "ada-marsh-2026-03-04.html"; of a minor the first name only. What
// tells students of one name apart is in it where another's would be named alike, "ada-marsh-172-2026-03-04.html", and the
// hour where the evening is not the only one of its date.
func (w handoutWanted) fileName(in handout.Input, sessions []model.Session, students []model.Student) string {
	ending := ".html"
	if w.text {
		ending = ".txt"
	}
	return fileStem(in.Figures.Student, students) + "-" + dateIn(in.At, sessions) + ending
}

// fileStem gives a student's part of a page's name, unlike any other student's.
func fileStem(student model.Student, students []model.Student) string {
	named := slices.Clone(students)
	for i, s := range named {
		named[i].Name = nameOnPage(s)
	}
	student.Name = nameOnPage(student)
	of := func(name func(model.Student) string) (stem string, only bool) {
		stem = slug(name(student))
		return stem, stem != "" && !slices.ContainsFunc(named, func(s model.Student) bool {
			return s.ID != student.ID && slug(name(s)) == stem
		})
	}
	bare, only := of(func(s model.Student) string { return s.Name })
	if only {
		return bare
	}
	if told, only := of(func(s model.Student) string { return model.LabelAmong(s, named) }); only {
		return told
	}
	return strings.Trim(bare+"-"+string(student.ID), "-")
}

// nameOnPage is the name that a page is headed by: of a minor the first name only.
func nameOnPage(s model.Student) string {
	if words := strings.Fields(s.Name); s.Minor && len(words) > 0 {
		return words[0]
	}
	return s.Name
}

// dateIn gives the date of an evening that began at a time, with the hour and minute where another began on it too.
func dateIn(at time.Time, sessions []model.Session) string {
	date := at.Format(time.DateOnly)
	for _, s := range sessions {
		if other := s.At.In(at.Location()); !other.Equal(at) && other.Format(time.DateOnly) == date {
			return at.Format("2006-01-02-1504")
		}
	}
	return date
}

// slug gives a name in small letters and digits of any script, with dashes for all else.
func slug(name string) string {
	const most = 40 // a name of eighty wide letters is longer than a file's may be
	letters := []rune(strings.ToLower(name))
	words := strings.FieldsFunc(string(letters[:min(len(letters), most)]), func(r rune) bool {
		return !unicode.In(r, unicode.L, unicode.M, unicode.N)
	})
	return strings.Join(words, "-")
}
