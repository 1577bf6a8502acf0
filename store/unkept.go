package store

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"coach.settee/model"
)

// SaveUnkept writes steps that are not kept, as WriteUnkept does, into a new file at path and gives how many there were.
// The file gets its name, and is readable by its owner only, when all of it is on the disk; one that is there is never
// replaced, fs.ErrExist.
func SaveUnkept(path string, steps []model.Step) (int, error) {
	if isThere(path) {
		return 0, fmt.Errorf("%s: %w", path, fs.ErrExist)
	}
	temp, err := beside(path, func(w io.Writer) error { return WriteUnkept(w, steps) })
	if err != nil {
		return 0, err
	}
	defer os.Remove(temp)
	err = os.Link(temp, path)
	if err != nil && !errors.Is(err, fs.ErrExist) && !isThere(path) {
		// A file system without links.
		err = os.Rename(temp, path)
	}
	if err = errors.Join(err, syncDir(filepath.Dir(path))); err != nil {
		return 0, err
	}
	return len(steps), nil
}

// WriteUnkept writes the records of steps that could not be kept as lines of the exchange format: each as the last of
// the steps leaves it, what others refer to first. What the steps took back comes last, in lines that name it: it may be
// kept. ImportNewer brings such a file into the store that the steps were for.
func WriteUnkept(w io.Writer, steps []model.Step) error {
	last := map[model.Ref]model.Record{}
	var order []model.Ref
	for _, step := range steps {
		for _, c := range step.Changes {
			if _, again := last[c.Ref]; !again {
				order = append(order, c.Ref)
			}
			last[c.Ref] = c.After
		}
	}
	slices.SortStableFunc(order, func(a, b model.Ref) int { return cmp.Compare(a.Kind, b.Kind) })
	out := &lineWriter{w: bufio.NewWriterSize(w, exchangeBuffer)}
	out.buf = append(out.buf, firstLine+"\n"...)
	for _, ref := range order {
		if last[ref] == nil {
			continue
		}
		if err := out.write(last[ref]); err != nil {
			return err
		}
	}
	for _, ref := range slices.Backward(order) {
		if last[ref] != nil {
			continue
		}
		if err := out.write(takenBackOf(ref)); err != nil {
			return err
		}
	}
	return out.flush()
}
