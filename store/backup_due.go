package store

import (
	"cmp"
	"slices"
	"time"

	bolt "go.etcd.io/bbolt"
)

const (
	// backupEvery is how old the newest automatic copy may become before another one is due.
	backupEvery = time.Hour
	// backupAgain is after what time it is looked again where nothing is kept yet, or a copy failed.
	backupAgain = 5 * time.Minute
)

// BackupIfDue makes an automatic copy as AutoBackup does where one is due: where the newest that is not cut off is an hour
// old, or there is none and a student or an evening is kept. A copy that is dated later than now is none, as for AutoBackup.
// It gives after what time to look again; that an older copy could not be removed is no error here.
func (s *Store) BackupIfDue(now time.Time) (next time.Duration, err error) {
	s.copying.Lock()
	defer s.copying.Unlock()
	made, err := Backups(s.path)
	if err != nil {
		return backupAgain, err
	}
	now = now.UTC().Truncate(time.Second)
	// A disk that filled up or was pulled out leaves less than a copy. All of one was read when it was made.
	last := slices.IndexFunc(made, func(b Backup) bool { return !b.Time.After(now) && inspectPages(b.Path, toJournal) == nil })
	if last >= 0 {
		if age := now.Sub(made[last].Time); age < backupEvery {
			return backupEvery - age, nil
		}
	} else if any, err := s.anyKept(); err != nil || !any {
		return backupAgain, err
	}
	if path, err := s.autoBackup(now); path == "" {
		return backupAgain, err
	}
	return backupEvery, nil
}

// lastBy gives the place of the newest copy that is not dated later than now, -1 for none.
func lastBy(made []Backup, now time.Time) int {
	return slices.IndexFunc(made, func(b Backup) bool { return !b.Time.After(now) })
}

// trusted gives copies in the order in which they are to be taken, in place: the newest first, and those that are dated later
// than now, by a clock that was wrong, last.
func trusted(made []Backup, now time.Time) []Backup {
	slices.SortStableFunc(made, func(a, b Backup) int { return cmp.Compare(late(a, now), late(b, now)) })
	return made
}

// anyKept tells whether a student or a session is kept.
func (s *Store) anyKept() (any bool, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		student, _ := bucket(tx, bucketStudents).Cursor().First()
		session, _ := bucket(tx, bucketSessions).Cursor().First()
		any = student != nil || session != nil
		return nil
	})
	return any, err
}
