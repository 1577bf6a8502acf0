package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/store"
)

// handoutsBeside writes the pages that the board is asked for into the folder `handouts` beside the store, where they
// replace those of the same evening.
type handoutsBeside struct {
	s *store.Store
	// note is said after each path, "" for nothing.
	note string
}

// all writes everyone's page of an evening, tells after each how many of how many are written, and gives their folder,
// "" where nobody bowled.
func (b handoutsBeside) all(session model.ID, written func(n, of int)) (folder string, err error) {
	evening, kept, err := b.kept(session)
	if err != nil {
		return "", err
	}
	inputs, without, err := handoutInputs(b.s, evening, kept.students)
	if err != nil || len(inputs) == 0 {
		return "", err
	}
	wanted, err := b.wanted(false)
	if err != nil {
		return "", err
	}
	for i, in := range inputs {
		if _, err := b.write(wanted, in, kept); err != nil {
			return "", err
		}
		written(i+1, len(inputs))
	}
	if len(without) > 0 {
		b.note += " (nothing bowled, so no page: " + strings.Join(without, ", ") + ")"
	}
	return wanted.out + b.note, nil
}

// one writes a student's page of an evening, and gives its path.
func (b handoutsBeside) one(session, student model.ID, asText bool) (path string, err error) {
	evening, kept, err := b.kept(session)
	if err != nil {
		return "", err
	}
	i := slices.IndexFunc(kept.students, func(x model.Student) bool { return x.ID == student })
	if i < 0 {
		return "", errors.New("the student is kept no more: settee handout --all writes the pages of those who are")
	}
	h, err := b.s.History(student, eveningScope(session))
	if err != nil {
		return "", err
	}
	wanted, err := b.wanted(asText)
	if err != nil {
		return "", err
	}
	path, err = b.write(wanted, handout.NewInput(kept.students[i], evening, time.Local, h.Over, h.Earlier, h.First), kept)
	return path + b.note, err
}

// keptBeside is what a page's name is told apart from.
type keptBeside struct {
	sessions []model.Session
	students []model.Student
}

// kept gives an evening, and all evenings and students.
func (b handoutsBeside) kept(session model.ID) (evening model.Session, all keptBeside, err error) {
	if evening, all.sessions, err = eveningWanted(b.s, session); err != nil {
		return model.Session{}, keptBeside{}, err
	}
	all.students, err = b.s.Students()
	return evening, all, err
}

func (b handoutsBeside) wanted(asText bool) (handoutWanted, error) {
	file, err := filepath.Abs(b.s.Path())
	if err != nil {
		return handoutWanted{}, fmt.Errorf("no folder for the handouts: %w", err)
	}
	return handoutWanted{all: true, named: true, text: asText, out: filepath.Join(filepath.Dir(file), "handouts")}, nil
}

func (b handoutsBeside) write(wanted handoutWanted, in handout.Input, kept keptBeside) (path string, err error) {
	page, err := wanted.page(in)
	if err != nil {
		return "", err
	}
	name := wanted.fileName(in, kept.sessions, kept.students)
	return filepath.Join(wanted.out, name), wanted.write(io.Discard, b.s.Path(), handoutFile{name, page})
}

// clipboardOf gives what hands a text to the clipboard of the terminal out, or of the one that is behind a multiplexer;
// nil where the terminal has none. env looks up the environment.
//
// What is written goes out as a whole: a file takes one write after the other, and a frame of the board is one.
func clipboardOf(out *os.File, env func(string) string) func(text string) error {
	term := env("TERM")
	wrapped := func(seq string) string { return seq }
	switch {
	case slices.Contains([]string{"", "dumb", "linux"}, term):
		return nil
	case env("TMUX") != "" || strings.HasPrefix(term, "tmux"):
		// It takes the sequence itself or passes it on, as it is set: one of the two is lost without harm.
		wrapped = func(seq string) string { return seq + ansi.TmuxPassthrough(seq) }
	case strings.HasPrefix(term, "screen"):
		wrapped = func(seq string) string { return ansi.ScreenPassthrough(seq, screenLimit) }
	}
	return func(text string) error {
		_, err := out.WriteString(wrapped(ansi.SetSystemClipboard(text)))
		return err
	}
}

// screenLimit is the longest string that GNU Screen passes on, in bytes, as its manual has it.
const screenLimit = 768
