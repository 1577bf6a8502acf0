package model

import (
	"cmp"
	"maps"
	"slices"
)

// do makes an action's changes, adds it to the list and gives the step for the store. An action that cannot stand
// because a game's deliveries would not be possible is refused and leaves everything as it was.
func (e *Evening) do(a Action) (Step, error) {
	a.N = len(e.log) + 1
	step, err := e.take(a, a.Changes)
	if err != nil {
		return Step{}, err
	}
	e.log = append(e.log, a)
	e.undone = nil
	return step, nil
}

// take makes changes and gives the step that keeps them.
func (e *Evening) take(a Action, changes []Change) (Step, error) {
	sheets, err := e.rebuilt(changes)
	if err != nil {
		return Step{}, err
	}
	// A call in which nothing is said yet begins anew, with what will be in force then.
	maps.DeleteFunc(e.calls, func(id ID, _ Call) bool { return !e.Begun(id) })
	for _, c := range changes {
		e.put(c)
	}
	step := Step{Session: e.session.ID, Action: a, Changes: changes, Tallies: map[ID]Tally{}}
	for id, s := range sheets {
		e.sheets[id] = s
		step.Tallies[id] = s.Tally
	}
	for _, c := range changes {
		if g, ok := c.Before.(Game); ok {
			e.findLastBall(g.Student)
		}
	}
	for _, s := range sheets {
		e.findLastBall(s.Game.Student)
	}
	return step, nil
}

// put makes a change to everything but the deliveries, which rebuilt has put into their sheets.
func (e *Evening) put(c Change) {
	switch c.Ref.Kind {
	case SessionRecord:
		if s, ok := c.After.(Session); ok {
			e.session = s
		}
	case StudentRecord:
		if s, ok := c.After.(Student); ok {
			e.students[c.Ref.ID] = s
			return
		}
		delete(e.students, c.Ref.ID)
	case GameRecord:
		e.putGame(c)
	}
}

func (e *Evening) putGame(c Change) {
	if old, ok := c.Before.(Game); ok && c.After == nil {
		delete(e.sheets, old.ID)
		e.games[old.Student] = slices.DeleteFunc(e.games[old.Student], func(id ID) bool { return id == old.ID })
		return
	}
	g, ok := c.After.(Game)
	if !ok || c.Before != nil {
		return
	}
	ids := append(e.games[g.Student], g.ID)
	slices.SortFunc(ids, func(a, b ID) int { return cmp.Compare(e.numberOf(a, g), e.numberOf(b, g)) })
	e.games[g.Student] = ids
}

func (e *Evening) numberOf(id ID, g Game) int {
	if id == g.ID {
		return g.Number
	}
	return e.sheets[id].Game.Number
}

// rebuilt gives the sheets that changes touch as they will be.
func (e *Evening) rebuilt(changes []Change) (map[ID]*Sheet, error) {
	touched := map[ID]*Sheet{}
	draft := func(id ID) *Sheet {
		if touched[id] == nil {
			touched[id] = &Sheet{}
			if old := e.sheets[id]; old != nil {
				touched[id].Game, touched[id].Deliveries = old.Game, old.deliveries()
			}
		}
		return touched[id]
	}
	gone := map[ID]bool{}
	for _, c := range changes {
		switch c.Ref.Kind {
		case GameRecord:
			g, ok := c.After.(Game)
			gone[c.Ref.ID] = !ok
			draft(c.Ref.ID).Game = g
		case DeliveryRecord:
			if d, ok := c.Before.(Delivery); ok {
				s := draft(d.Game)
				s.Deliveries = slices.DeleteFunc(s.Deliveries, func(x Delivery) bool { return x.ID == d.ID })
			}
			if d, ok := c.After.(Delivery); ok {
				s := draft(d.Game)
				s.Deliveries = append(s.Deliveries, d)
			}
		}
	}
	out := map[ID]*Sheet{}
	for id, s := range touched {
		if gone[id] {
			continue
		}
		slices.SortStableFunc(s.Deliveries, func(a, b Delivery) int { return cmp.Compare(a.Seq, b.Seq) })
		sheet, err := NewSheet(s.Game, s.Deliveries)
		if err != nil {
			return nil, err
		}
		out[id] = sheet
	}
	return out, nil
}

// findLastBall finds a student's last ball of the evening.
func (e *Evening) findLastBall(id ID) {
	var last bowled
	for _, g := range e.games[id] {
		ds := e.sheets[g].Deliveries
		for i := range ds {
			if at := e.order[ds[i].ID]; at > last.order {
				last = bowled{at, ds[i].Lane}
			}
		}
	}
	e.bowled[id] = last
}
