package store

import (
	"fmt"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// Scope chooses what of a student's history is read: one game, drill or warm-up where Game is set, else all of one evening
// where Session is, else the Last games with a ball where that is above 0, finished or not, with the drills and warm-ups of
// their evenings, else everything.
type Scope struct {
	Game, Session model.ID
	Last          int
	// Earlier is how many finished games are read from before the last evening with a game of what is chosen.
	Earlier int
}

// History is what a student bowled, scored and counted. Each list is in the order of time, and in an evening by number;
// what is in several lists is there as the same sheet.
type History struct {
	// Over is what the scope chose.
	Over []model.DatedSheet
	// Earlier are the last finished games before the last evening with a game of Over, as many as were asked for or fewer.
	Earlier []model.DatedSheet
	// First is the student's first evening with a game, its drills and warm-ups included.
	First []model.DatedSheet
}

// History reads a student's history, all of it in one transaction. Of a student of whom nothing is kept, and of an
// evening without the student, nothing is no error; ErrNoGame and ErrNoSession are given for ids that are not kept, and
// ErrNoGame for the game of another student.
func (s *Store) History(student model.ID, of Scope) (h History, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		h, err = historyIn(tx, student, of)
		return err
	})
	return h, err
}

func historyIn(tx *bolt.Tx, student model.ID, of Scope) (History, error) {
	over, last, err := chosenIn(tx, student, of)
	if err != nil {
		return History{}, err
	}
	earlier, err := finishedBefore(tx, student, last, of.Earlier)
	if err != nil {
		return History{}, err
	}
	first, err := firstEvening(tx, student)
	if err != nil {
		return History{}, err
	}
	sheets, err := sheetsIn(tx, over, earlier, first)
	if err != nil {
		return History{}, err
	}
	return History{Over: sheets.dated(over), Earlier: sheets.dated(earlier), First: sheets.dated(first)}, nil
}

// chosenIn gives what a scope chooses, and where in the student's games the last evening of it begins.
func chosenIn(tx *bolt.Tx, student model.ID, of Scope) (over []*played, last []byte, err error) {
	switch {
	case of.Game != "":
		return gameChosen(tx, student, of.Game)
	case of.Session != "":
		return eveningChosen(tx, student, of.Session)
	case of.Last > 0:
		over, err = lastGames(tx, student, of.Last)
	default:
		for g, err := range byEvening(playedOn(tx, student)) {
			if err != nil {
				return nil, nil, err
			}
			over = append(over, g...)
		}
	}
	return over, lastEveningKey(student, over), err
}

// lastEveningKey gives a key before those of the last evening with a game of a list, of the last one where none has a game;
// nil for an empty list.
func lastEveningKey(student model.ID, over []*played) []byte {
	for _, g := range slices.Backward(over) {
		if g.isBowled() {
			return eveningKey(student, g)
		}
	}
	if len(over) == 0 {
		return nil
	}
	return eveningKey(student, over[len(over)-1])
}

// eveningKey gives a key before those of a student's games in the evening of one of them.
func eveningKey(student model.ID, g *played) []byte {
	return playedKey(student, g.at, place{session: g.place.session})
}

func gameChosen(tx *bolt.Tx, student, game model.ID) ([]*played, []byte, error) {
	at, there, err := find(tx, model.GameRecord, game)
	if err != nil {
		return nil, nil, err
	}
	row, _, err := gameAt(tx, at.place)
	if err != nil {
		return nil, nil, err
	}
	if !there || row.Student != student {
		return nil, nil, fmt.Errorf("%w: %s", ErrNoGame, game)
	}
	head, _, err := headAt(tx, at.session)
	g := &played{row, at.place, head.at}
	return []*played{g}, eveningKey(student, g), err
}

func eveningChosen(tx *bolt.Tx, student, session model.ID) ([]*played, []byte, error) {
	head, ok, err := headAt(tx, session)
	if err != nil {
		return nil, nil, err
	}
	if !ok {
		return nil, nil, fmt.Errorf("%w: %s", ErrNoSession, session)
	}
	from := playedKey(student, head.at, place{session: head.number})
	to := playedKey(student, head.at, place{head.number, highest})
	for evening, err := range byEvening(playedBack(tx, student, to)) {
		if err != nil || evening[0].place.session != head.number {
			return nil, from, err
		}
		return evening, from, nil
	}
	return nil, from, nil
}

// lastGames gives a student's last n games in which a ball was bowled, and the drills and warm-ups of their evenings.
func lastGames(tx *bolt.Tx, student model.ID, n int) ([]*played, error) {
	var out []*played
	for evening, err := range byEvening(playedBack(tx, student, nil)) {
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(evening, (*played).isBowled) {
			continue
		}
		for _, g := range slices.Backward(evening) {
			if g.isBowled() {
				n--
			}
			if g.Kind != model.KindGame || g.isBowled() && n >= 0 {
				out = append(out, g)
			}
		}
		if n <= 0 {
			break
		}
	}
	slices.Reverse(out)
	return out, nil
}

// isBowled tells whether it is a game with a delivery.
func (g *played) isBowled() bool { return g.Kind == model.KindGame && g.tally.Load > 0 }

// finishedBefore gives up to n of a student's finished games from before a key, the last of them.
func finishedBefore(tx *bolt.Tx, student model.ID, before []byte, n int) ([]*played, error) {
	var out []*played
	if before == nil || n <= 0 {
		return nil, nil
	}
	for evening, err := range byEvening(playedBack(tx, student, before)) {
		if err != nil {
			return nil, err
		}
		for _, g := range slices.Backward(evening) {
			if g.isBowled() && g.tally.Complete && len(out) < n {
				out = append(out, g)
			}
		}
		if len(out) == n {
			break
		}
	}
	slices.Reverse(out)
	return out, nil
}

func firstEvening(tx *bolt.Tx, student model.ID) ([]*played, error) {
	for evening, err := range byEvening(playedOn(tx, student)) {
		if err != nil || slices.ContainsFunc(evening, (*played).isBowled) {
			return evening, err
		}
	}
	return nil, nil
}
