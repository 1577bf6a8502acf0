package main

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/store"
)

type importedJSON struct {
	recordsJSON
	Known int `json:"known"`
	// Mine are the ids of the students and cues that stayed as they were.
	Mine []model.ID `json:"mine,omitempty"`
	// Replaced, Gone and Copy tell what a newer file did.
	Replaced *recordsJSON `json:"replaced,omitempty"`
	Gone     *recordsJSON `json:"gone,omitempty"`
	Copy     string       `json:"copy,omitempty"`
}

type recordsJSON struct {
	Cues       int `json:"cues"`
	Students   int `json:"students"`
	Sessions   int `json:"sessions"`
	Games      int `json:"games"`
	Deliveries int `json:"deliveries"`
}

func countsOf(n store.Imported) recordsJSON {
	return recordsJSON{n.Cues, n.Students, n.Sessions, n.Games, n.Deliveries}
}

func (i imported) json() importedJSON {
	out := importedJSON{recordsJSON: countsOf(i.taken), Known: i.taken.Known}
	for _, d := range i.mine {
		out.Mine = append(out.Mine, d.Kept.Ref().ID)
	}
	if i.renewed != nil {
		replaced, gone := countsOf(i.renewed.Replaced), countsOf(i.renewed.Gone)
		out.Replaced, out.Gone, out.Copy = &replaced, &gone, i.renewed.Copy
	}
	return out
}

// mineWords says what was taken, and which students and cues stayed as they were, one a line.
func mineWords(got imported) string {
	words := "nothing new"
	if got.taken != (store.Imported{Known: got.taken.Known}) {
		words = importedWords(got.taken)
	}
	for _, d := range got.mine {
		who := ""
		switch r := d.Kept.(type) {
		case model.Student:
			who = "the student " + r.Name
		case model.Cue:
			who = fmt.Sprintf("the cue %q", r.Text)
		}
		words += fmt.Sprintf("\nkept as here: %s, of which the file says something else in %s", who, strings.Join(d.Keys, ", "))
	}
	return words
}

// renewedWords says what was taken of a newer file, what it replaced and took away, and where the store is as it was.
func renewedWords(r store.Renewed) string {
	replaced, gone := counted(r.Replaced), counted(r.Gone)
	if replaced == "" && gone == "" {
		return importedWords(r.Taken)
	}
	var lines []string
	if counted(r.Taken) != "" {
		lines = append(lines, importedWords(r.Taken))
	}
	if replaced != "" {
		lines = append(lines, "replaced: "+replaced)
	}
	if gone != "" {
		lines = append(lines, "taken back: "+gone)
	}
	return strings.Join(append(lines, "as it was before, the store is in "+r.Copy), "\n")
}

// importedWords says what was taken in one line.
func importedWords(taken store.Imported) string {
	what := counted(taken)
	if what == "" {
		return "nothing new: all of it was kept already"
	}
	words := "taken: " + what
	if taken.Known > 0 {
		words += fmt.Sprintf("; %d more were kept already", taken.Known)
	}
	return words
}

// counted says how many records of each type there are, "" for none.
func counted(taken store.Imported) string {
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{
		{taken.Cues, "cue", "cues"},
		{taken.Students, "student", "students"},
		{taken.Sessions, "session", "sessions"},
		{taken.Games, "game", "games"},
		{taken.Deliveries, "delivery", "deliveries"},
	} {
		switch p.n {
		case 0:
		case 1:
			parts = append(parts, "1 "+p.one)
		default:
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.many))
		}
	}
	return strings.Join(parts, ", ")
}
