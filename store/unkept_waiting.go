package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// UnkeptName gives a name beside the store at path, which no file has yet, for what could not be kept.
func UnkeptName(path string) string { return freeName(path, unkeptWord) }

const (
	unkeptWord  = "unkept"
	takenInWord = "taken-in"
)

// TakenIn says what became of a file of what could not be kept, which was waiting beside the store.
type TakenIn struct {
	// File is its name now. One that was taken in has another than before, under which it is not taken again.
	File string
	Renewed
	// Err says why it was not taken in, or only that it could not get another name: then Taken tells.
	Err error
}

// Calls gives how many deliveries were taken in, replaced or taken back.
func (t TakenIn) Calls() int { return t.Taken.Deliveries + t.Replaced.Deliveries + t.Gone.Deliveries }

// TakeInUnkept takes the files of what could not be kept that are waiting beside the store at path under names of
// UnkeptName, the oldest first, as ImportNewer does, but replaces only what the file tells to be what it was written for.
// Before anything is taken an automatic copy is made, dated now. A file that is not taken in stays as it is, and so does the
// store. Where there is no store nothing is done.
func TakeInUnkept(path string, now time.Time) []TakenIn {
	path, err := filepath.Abs(path)
	if err != nil || !isThere(path) {
		return nil
	}
	var out []TakenIn
	for _, file := range waiting(path) {
		t := TakenIn{File: file}
		if t.Renewed, t.Err = takeInFile(path, file, now); t.Err == nil {
			if t.File, t.Err = SetTakenIn(path, file); t.Err != nil {
				t.File = file
			}
		}
		out = append(out, t)
	}
	return out
}

// SetTakenIn gives a file, of which all is kept, the name beside it that says so.
func SetTakenIn(path, file string) (string, error) {
	name := freeName(filepath.Join(filepath.Dir(file), filepath.Base(path)), takenInWord)
	err := os.Rename(file, name)
	if errors.Is(err, fs.ErrNotExist) {
		// Another process took it in at the same time.
		return file, nil
	}
	if err != nil {
		return "", fmt.Errorf("all of %s is kept, but it cannot be named %s: %w", file, name, err)
	}
	return name, syncDir(filepath.Dir(name))
}

func takeInFile(path, file string, now time.Time) (Renewed, error) {
	f, err := os.Open(file)
	if err != nil {
		return Renewed{}, err
	}
	defer f.Close()
	in := newIntake(f)
	in.newer, in.strict = true, true
	return renew(path, in, now)
}

// waiting gives the files beside a store that have names of UnkeptName, by their number.
func waiting(path string) []string {
	files, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return nil
	}
	numbers := map[string]int{}
	for _, f := range files {
		middle, begins := strings.CutPrefix(f.Name(), filepath.Base(path)+"."+unkeptWord)
		middle, ends := strings.CutSuffix(middle, ".jsonl")
		n, err := strconv.Atoi(strings.TrimPrefix(middle, "-"))
		if !begins || !ends || !f.Type().IsRegular() || middle != "" && (err != nil || nth(n) != middle) {
			continue
		}
		numbers[filepath.Join(filepath.Dir(path), f.Name())] = n
	}
	names := make([]string, 0, len(numbers))
	for name := range numbers {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int { return numbers[a] - numbers[b] })
	return names
}

// freeName gives a name beside path, with a word and where it must be a number, that no file has yet.
func freeName(path, word string) string {
	for n := 0; ; n++ {
		name := path + "." + word + nth(n) + ".jsonl"
		if n != 1 && !isThere(name) {
			return name
		}
	}
}

// nth gives the end of a name with a number: none for the first, then -2 and so on.
func nth(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("-%d", n)
}
