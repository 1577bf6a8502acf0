package store

import (
	"errors"
	"fmt"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// takenBack is a line that says of a record that it was taken back. Exports have none; it is written of what the disk
// refused, where the record may be kept though its taking back is not.
type takenBack struct {
	Record string
	ID     model.ID
}

// recordWords are how lines and refusals name the kinds of records.
var recordWords = map[model.RecordKind]string{
	model.CueRecord: "cue", model.StudentRecord: "student", model.SessionRecord: "session",
	model.GameRecord: "game", model.DeliveryRecord: "delivery",
}

func takenBackOf(ref model.Ref) takenBack { return takenBack{recordWords[ref.Kind], ref.ID} }

// Ref names the record that was taken back.
func (g takenBack) Ref() model.Ref {
	for kind, word := range recordWords {
		if word == g.Record {
			return model.Ref{Kind: kind, ID: g.ID}
		}
	}
	return model.Ref{ID: g.ID}
}

// Validate finds nothing that the fields have not.
func (g takenBack) Validate() error { return nil }

var takenBackFields = []field[takenBack]{
	always(wordField("record", func(g *takenBack) *string { return &g.Record },
		"cue", "student", "session", "game", "delivery")),
	always(idField("id", func(g *takenBack) *model.ID { return &g.ID })),
}

// takeAway takes a record away that a line says was taken back, unless others need it.
func (in *intake) takeAway(tx *bolt.Tx, ref model.Ref) error {
	kept, err := recordIn(tx, ref)
	switch {
	case err != nil:
		return err
	case kept == nil:
		in.taken.Known++
		return nil
	case !in.newer:
		return fmt.Errorf("%s was taken back and is kept here: --newer takes it away", refWords(ref))
	}
	if s, ok := kept.(model.Student); ok {
		if named, err := isNamed(tx, s.ID); err != nil || named {
			// Who was new to one evening may be in another by now.
			in.taken.Known++
			return err
		}
	}
	if err := in.speaksOf(tx, ref, kept, nil); err != nil {
		return err
	}
	switch r := kept.(type) {
	case model.Session:
		err = emptySession(tx, r)
	case model.Game:
		if err = emptyGame(tx, r); err == nil {
			delete(in.games, r.ID)
			in.visit(r.Session)
		}
	case model.Delivery:
		err = in.leave(tx, r)
	}
	if err != nil {
		return err
	}
	in.gone.count(ref.Kind)
	return deleteRecord(tx, ref)
}

// emptySession refuses to take a session away that has games.
func emptySession(tx *bolt.Tx, s model.Session) error {
	head, _, err := headAt(tx, s.ID)
	if err != nil {
		return err
	}
	if _, has := lastBefore(tx, bucketGames, place{head.number, highest}); has {
		return errors.New("the session " + string(s.ID) + " cannot go: it has games")
	}
	return nil
}

// emptyGame refuses to take a game away that has deliveries.
func emptyGame(tx *bolt.Tx, g model.Game) error {
	head, _, err := headAt(tx, g.Session)
	if err != nil {
		return err
	}
	return each(bucket(tx, bucketDeliveries), sessionPrefix(head.number), func(k, v []byte) error {
		d, err := decodeDeliveryRow(g.Session, k, v)
		if err == nil && d.Game == g.ID {
			return fmt.Errorf("the game %s cannot go: the delivery %s is of it", g.ID, d.ID)
		}
		return bad(err, "a delivery of session %s", g.Session)
	})
}
