package store

import (
	"fmt"
	"hash/crc32"
	"slices"
	"strings"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// pastForms is a line that says of a record which forms of it the store may hold where the lines after this one were
// written: the one that was kept last, and those that the disk refused but may have taken after all. By them a record
// that was changed since, or another that got its id since, is told from the one that the file speaks of. Exports have none.
type pastForms struct {
	Record string
	ID     model.ID
	// Sums are the forms: the checksum of each as a line, noForm for none.
	Sums []string
}

// noForm stands for the form of a record that is not kept.
const noForm = "none"

// sumsPerLine is how many forms a line tells; of more there are several lines.
const sumsPerLine = maxList

// Ref names the record.
func (p pastForms) Ref() model.Ref { return takenBack{p.Record, p.ID}.Ref() }

// Validate finds nothing that the fields have not.
func (p pastForms) Validate() error { return nil }

var pastFields = []field[pastForms]{
	always(wordField("record", func(p *pastForms) *string { return &p.Record },
		"cue", "student", "session", "game", "delivery")),
	always(idField("id", func(p *pastForms) *model.ID { return &p.ID })),
	always(textsField("sums", func(p *pastForms) *[]string { return &p.Sums })),
}

// sumOf gives the sum of a form of a record, nil for that it is not there.
func sumOf(r model.Record) string {
	if r == nil {
		return noForm
	}
	return fmt.Sprintf("%08x", crc32.Checksum(encodeLine(nil, r), castagnoli))
}

// speaksOf refuses what a line says of a record where the one that is kept, nil for none, is not one that the file was
// written for. What no line tells of is judged by itself: a ball by when it was bowled, and in which game.
func (in *intake) speaksOf(tx *bolt.Tx, ref model.Ref, kept, says model.Record) error {
	sums, told := in.past[ref]
	if told && slices.Contains(sums, sumOf(kept)) {
		return nil
	}
	if kept == nil {
		if !told {
			return nil
		}
		return fmt.Errorf("%s is not kept any more, or was never kept here, and the file only changes it: %s", refWords(ref), instead)
	}
	ball, isBall := kept.(model.Delivery)
	file, both := says.(model.Delivery)
	if both && (!ball.At.Equal(file.At) || ball.Game != file.Game) {
		return anotherBall(tx, ball, file)
	}
	what := refWords(ref)
	if isBall {
		what = "the ball of " + ballWords(tx, ball)
	}
	switch {
	case told && both:
		return fmt.Errorf("%s was changed here after the file was written (the two differ in %s): %s",
			what, joinWords(differing(kept, says)), instead)
	case told && says == nil:
		return fmt.Errorf("the file takes %s back, under which %s is kept since: %s", refWords(ref), what, instead)
	case told:
		return fmt.Errorf("%s was changed here after the file was written: %s", what, instead)
	case says == nil:
		return fmt.Errorf("the file takes %s back, and does not tell by a line before which form of it: %s", what, instead)
	case in.strict:
		return fmt.Errorf("%s is kept already and says something else, and the file does not tell by a line before which form "+
			"it is newer than: %s", what, instead)
	}
	return nil
}

// instead is what to do where a file is older than what is kept.
const instead = "enter on the board what is missing (Z takes missed frames), or restore a copy from before, then import the file"

// anotherBall refuses to put a ball in the place of one that has only its id in common.
func anotherBall(tx *bolt.Tx, kept, file model.Delivery) error {
	return fmt.Errorf("under the id %s the file has the ball of %s, and kept is another, of %s: %s",
		kept.ID, ballWords(tx, file), ballWords(tx, kept), instead)
}

// ballWords tells whose a ball is, where in which game, and when it was bowled.
func ballWords(tx *bolt.Tx, d model.Delivery) string {
	var words []string
	g, _ := recordIn(tx, model.Ref{Kind: model.GameRecord, ID: d.Game})
	if game, ok := g.(model.Game); ok {
		who := string(game.Student)
		r, _ := recordIn(tx, model.Ref{Kind: model.StudentRecord, ID: game.Student})
		if s, ok := r.(model.Student); ok {
			who = s.Name
		}
		words = append(words, who, fmt.Sprintf("%s %d", game.Kind, game.Number))
	} else {
		words = append(words, "the game "+string(d.Game))
	}
	if d.Frame > 0 {
		words = append(words, fmt.Sprintf("frame %d, ball %d", d.Frame, d.Ball))
	} else {
		words = append(words, fmt.Sprintf("delivery %d", d.Seq))
	}
	return strings.Join(append(words, d.At.Local().Format("2 Jan 2006 15:04")), ", ")
}
