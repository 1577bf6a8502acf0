package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/store"
)

// pageOf gives a reader that has an evening of Ada's, closed, and what her page says of it.
func pageOf(t *testing.T) *fakeReader {
	t.Helper()
	d := onBoard(t, "Ada Marsh 172").press("er<esc>" + aGame + "e")
	d.press("xhone step, 3 times 10, Monday<enter>wYou waited for it.<enter>dwed<enter>")
	kept := keptEvening(d)
	sheet := d.evening.Sheet("id2")
	return &fakeReader{
		students: kept.Students, evenings: []model.Kept{kept},
		played:  map[model.ID][]store.Played{"id2": {{Game: sheet.Game, At: testTime, Tally: sheet.Tally}}},
		history: map[model.ID]store.History{"id2": {Over: []model.DatedSheet{{Sheet: sheet, At: testTime}}}},
	}
}

func onPage(t *testing.T) *appTest { return startApp(t, pageOf(t)).press("sh") }

func TestHandoutScreen(t *testing.T) {
	t.Run("what the student takes home, and back", func(t *testing.T) {
		d := onPage(t)
		d.send(sizeMsg(100, 60))
		d.says("Page", "Ada Marsh", "Wednesday 4 March 2026", "Your coach: You waited for it.", "Homework: one step, 3 times 10, Monday",
			"Next time: Wednesday 11 March 2026", "not medical advice")
		if d.press("<esc>"); d.screen != screen(d.student) {
			t.Error(d.show())
		}
	})
	t.Run("it turns", func(t *testing.T) {
		d := onPage(t).press("<end>")
		d.says("not medical advice", "of ")
		d.silent("Wednesday 4 March")
		d.press("<home><up>").says("Wednesday 4 March", "lines 1 to ")
		d.press("<down>").says("lines 2 to ")
	})
	t.Run("who has not bowled has none", func(t *testing.T) {
		reader := pageOf(t)
		reader.played = nil
		d := startApp(t, reader).press("sh")
		d.says("Ada Marsh has not bowled yet")
		for _, key := range []string{"y", "w"} {
			d.conf.Handout = func(model.ID, model.ID, bool) (string, error) { t.Fatal("written"); return "", nil }
			if d.press(key); !d.status.refused {
				t.Errorf("%s: %+v", key, d.status)
			}
		}
	})
	t.Run("what cannot be read is said", func(t *testing.T) {
		d := startApp(t, pageOf(t)).press("s")
		d.reader.err = errors.New("the file is gone")
		d.press("h").says("the page cannot be made: the file is gone")
	})
}

func TestHandoutCopiedAndWritten(t *testing.T) {
	for _, test := range []struct {
		name, keys       string
		clipboard        bool
		copyErr, fileErr error
		says             string
		copied           bool
		wrote            []string
	}{
		{"copied", "y", true, nil, nil, "handed to the terminal's clipboard; if it did not arrive: /home/ada.txt", true, []string{"id1 id2 text"}},
		{"no clipboard", "y", false, nil, nil, "the page is written: /home/ada.txt", false, []string{"id1 id2 text"}},
		{"the clipboard fails", "y", true, errors.New("gone"), nil, "the page is written: /home/ada.txt", false, []string{"id1 id2 text"}},
		{"the file fails", "y", true, nil, errors.New("full"), "it is not written as a file: full", true, []string{"id1 id2 text"}},
		{"both fail", "y", false, nil, errors.New("full"), "the page is not written: full", false, []string{"id1 id2 text"}},
		{"for a browser", "w", true, nil, nil, "the page is written: /home/ada.html", false, []string{"id1 id2 html"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			d := onPage(t)
			var wrote []string
			copied := ""
			d.conf.Handout = func(session, student model.ID, asText bool) (string, error) {
				ending := map[bool]string{true: "txt", false: "html"}[asText]
				wrote = append(wrote, fmt.Sprint(session, " ", student, " ", strings.Replace(ending, "txt", "text", 1)))
				return "/home/ada." + ending, test.fileErr
			}
			if test.clipboard {
				d.conf.Copy = func(text string) error {
					copied = text
					return test.copyErr
				}
			}
			d.press(test.keys).says(test.says)
			if !slices.Equal(wrote, test.wrote) {
				t.Errorf("wrote %v", wrote)
			}
			if test.copied && !strings.HasPrefix(copied, "Ada Marsh\nWednesday 4 March 2026") {
				t.Errorf("copied %q", copied)
			}
		})
	}
}

func TestHandoutAtEverySize(t *testing.T) {
	d := onPage(t)
	for w := 20; w <= 200; w += 1 + w/40 {
		for h := 5; h <= 60; h += 1 + h/20 {
			d.send(sizeMsg(w, h))
			filled(t, d, w, h)
		}
	}
}
