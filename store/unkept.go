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
// kept. Before each is a line that tells which forms of it the store may hold. ImportNewer brings such a file into the store
// that the steps were for.
func WriteUnkept(w io.Writer, steps []model.Step) error {
	last, order, past := folded(steps)
	out := &lineWriter{w: bufio.NewWriterSize(w, exchangeBuffer)}
	out.buf = append(out.buf, firstLine+"\n"...)
	write := func(ref model.Ref, r model.Record) error {
		for sums := range slices.Chunk(past[ref], sumsPerLine) {
			if err := out.write(pastForms{recordWords[ref.Kind], ref.ID, sums}); err != nil {
				return err
			}
		}
		return out.write(r)
	}
	for _, ref := range order {
		if last[ref] == nil {
			continue
		}
		if err := write(ref, last[ref]); err != nil {
			return err
		}
	}
	for _, ref := range slices.Backward(order) {
		if last[ref] != nil {
			continue
		}
		if err := write(ref, takenBackOf(ref)); err != nil {
			return err
		}
	}
	return out.flush()
}

// folded gives the records that steps change, each as the last of them leaves it, nil for taken back; the order in which
// they are written; and the sums of the forms that each had on the way, the one before the steps included.
func folded(steps []model.Step) (last map[model.Ref]model.Record, order []model.Ref, past map[model.Ref][]string) {
	last, past = map[model.Ref]model.Record{}, map[model.Ref][]string{}
	for _, step := range steps {
		for _, c := range step.Changes {
			forms := []model.Record{c.After}
			if _, again := last[c.Ref]; !again {
				order = append(order, c.Ref)
				forms = []model.Record{c.Before, c.After}
			}
			last[c.Ref] = c.After
			for _, form := range forms {
				if sum := sumOf(form); !slices.Contains(past[c.Ref], sum) {
					past[c.Ref] = append(past[c.Ref], sum)
				}
			}
		}
	}
	slices.SortStableFunc(order, func(a, b model.Ref) int { return cmp.Compare(a.Kind, b.Kind) })
	return last, order, past
}
