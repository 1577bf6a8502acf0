package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// ErrNoStudent says that no student is kept under an id.
var ErrNoStudent = errors.New("no such student is kept")

// Erasure is what erasing a student takes away.
type Erasure struct {
	Student model.Student
	// Games counts drills and warm-ups too. Evenings are those with the student's seat or a game of the student, Emptied
	// those of them that nobody else is in: they go with the student.
	Games, Deliveries, Evenings, Emptied int
	// Lists counts the evenings that stay, but in which nothing done so far can be taken back any more.
	Lists int
	// Others counts the records of others in whose texts the student's first name stands as a word. They stay as they are.
	Others int
	// games are the ids of the student's games, from wherever they are known.
	games map[model.ID]bool
}

// Erasable gives what Erase would take away. ErrNoStudent where the id is not kept.
func (s *Store) Erasable(student model.ID) (e Erasure, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		plan, err := planErasing(tx, student)
		if err != nil {
			return err
		}
		if e = plan.Erasure; e.Student.ID == "" {
			return fmt.Errorf("%w: %s", ErrNoStudent, student)
		}
		e.Others, err = othersNaming(tx, e.Student)
		return err
	})
	return e, err
}

// Erase takes a student out of the store at path for good: the record, the games with their deliveries, the seats, and
// what could be taken back in those evenings. All else is written to a new file, which is read back whole and takes the
// place of the old one, so that none of the student's bytes are in it. A crash on the way leaves the old file or the new
// one. The store must not be open, ErrInUse otherwise; ErrNoStudent where the id is not kept.
func Erase(path string, student model.ID, told Told) (Erasure, error) {
	return erase(path, student, false, told)
}

// erase erases a student from a file. A copy that keeps no such student is written anew all the same: its free pages may
// hold what was taken away before.
func erase(path string, student model.ID, isCopy bool, told Told) (Erasure, error) {
	old, err := Open(path, Options{MustExist: true, isCopy: isCopy})
	if err != nil {
		return Erasure{}, err
	}
	// The old file stays locked until the new one has its name.
	e, err := eraseOver(old, student, isCopy, told)
	if err = errors.Join(err, old.Close()); err != nil {
		return Erasure{}, err
	}
	return e, syncDir(filepath.Dir(old.path))
}

// eraseOver puts a copy of the store that is without a student in the store's place.
func eraseOver(old *Store, student model.ID, isCopy bool, told Told) (Erasure, error) {
	path, err := filepath.EvalSymlinks(old.path)
	if err != nil {
		return Erasure{}, err
	}
	if err := sweep(path); err != nil {
		return Erasure{}, err
	}
	temp, e, err := copyWithout(old, path, student, told)
	if err == nil && !isCopy && e.Student.ID == "" {
		err = fmt.Errorf("%w: %s", ErrNoStudent, student)
	}
	if err == nil {
		err = replace(old, path, temp)
	}
	if err != nil && temp != "" {
		err = errors.Join(err, os.Remove(temp))
	}
	return e, err
}

// copyWithout copies a store without a student to a file of its own beside path, reads it whole and gives its name, which
// is to be removed also after an error unless it is empty.
func copyWithout(s *Store, path string, student model.ID, told Told) (temp string, e Erasure, err error) {
	if temp, err = createBeside(path, nil); err != nil {
		return "", e, notErased(path, err)
	}
	kept := 0
	err = s.view(func(tx *bolt.Tx) error {
		plan, err := planErasing(tx, student)
		if err != nil {
			return err
		}
		plan.told = told
		err = plan.copyTo(temp, tx)
		e, kept = plan.Erasure, plan.kept
		return err
	})
	if err != nil {
		return temp, e, notErased(path, err)
	}
	n, err := readable(temp, told)
	if err == nil && n != kept {
		err = fmt.Errorf("%d of %d deliveries of others are in the copy", n, kept)
	}
	if err != nil {
		return temp, e, notErased(path, err)
	}
	return temp, e, nil
}

func notErased(path string, err error) error {
	return fmt.Errorf("nothing of %s was erased, it is as it was: %w", path, err)
}
