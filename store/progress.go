package store

import "io"

// Told is told of a long task how far it is, again and again. A nil one is told nothing.
type Told func(Part)

// Part is a part of a long task, and how far it is.
type Part struct {
	// Verb says what is done, as "copied".
	Verb string
	// Done and Of count bytes, or deliveries where Deliveries says so. Of is 0 where the whole is not known.
	Done, Of   int64
	Deliveries bool
}

// task tells of one part of a long task.
type task struct {
	told Told
	part Part
}

// begin tells that a part begins.
func (t Told) begin(p Part) *task {
	k := &task{t, p}
	k.add(0)
	return k
}

// add tells of more that is done.
func (k *task) add(n int64) {
	k.part.Done += n
	if k.told != nil {
		k.told(k.part)
	}
}

// Write counts what is written.
func (k *task) Write(p []byte) (int, error) {
	k.add(int64(len(p)))
	return len(p), nil
}

// counted gives what tells of the bytes that are read of a file.
func (k *task) counted(f io.ReaderAt) io.ReaderAt { return &countedReader{f, k} }

type countedReader struct {
	io.ReaderAt
	task *task
}

func (c *countedReader) ReadAt(p []byte, at int64) (int, error) {
	n, err := c.ReaderAt.ReadAt(p, at)
	c.task.add(int64(n))
	return n, err
}
