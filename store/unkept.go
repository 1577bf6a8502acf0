package store

import (
	"bufio"
	"cmp"
	"io"
	"slices"

	"coach.settee/model"
)

// WriteUnkept writes the records of steps that could not be kept as lines of the exchange format: each as the last of
// the steps leaves it, what others refer to first. What the steps take away has no line.
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
	return out.flush()
}
