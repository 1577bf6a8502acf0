package store

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
)

// sweep takes away what writing a file under the name at path left when it was cut short: what has exactly the form of the
// names that beside gives, and that no process has locked.
func sweep(path string) error {
	files, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return err
	}
	left := leftovers(filepath.Base(path))
	for _, f := range files {
		part := filepath.Join(filepath.Dir(path), f.Name())
		if f.Type().IsRegular() && left.MatchString(f.Name()) && nobodyHolds(part) {
			err = errors.Join(err, os.Remove(part))
		}
	}
	return err
}

// leftovers matches the names of files that were to take the place of the one with the name base.
func leftovers(base string) *regexp.Regexp {
	return regexp.MustCompile(`^\.` + regexp.QuoteMeta(base) + `\.[0-9]+\.new$`)
}
