package main

import (
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"coach.settee/model"
	"coach.settee/store"
	"coach.settee/tui"
)

// The key script pressed on the real board, with a store behind it, keeps the deliveries of the invented evening, but
// for when they were called.
func TestKeyScriptOnTheBoard(t *testing.T) {
	lines, _, evening := keyScript(t)
	s, err := store.Open(filepath.Join(t.TempDir(), "evening.db"), store.Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	_, calls := opening(t, evening)
	if err := s.Keep(evening[:len(evening)-len(calls)]...); err != nil {
		t.Fatal(err)
	}
	pressOnBoard(t, s, lines)

	want := replay(t, evening, map[model.ID]model.Student{})
	kept, err := s.Evening(want.session.ID)
	if err != nil {
		t.Fatal(err)
	}
	var recorded []model.Delivery
	for _, id := range want.recorded {
		recorded = append(recorded, want.deliveries[id])
	}
	if diff := cmp.Diff(recorded, kept.Deliveries, cmpopts.IgnoreFields(model.Delivery{}, "At")); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(want.up, kept.Up); diff != "" {
		t.Error(diff)
	}
}

// pressOnBoard presses a script's keys one by one and closes the recorder.
func pressOnBoard(t *testing.T, s *store.Store, lines []keyLine) {
	t.Helper()
	recorder := store.NewRecorder(s, store.RecorderOptions{})
	app, err := tui.New(tui.Config{
		Store: s, Recorder: recorder, Now: func() time.Time { return lastEvening }, NewID: newID,
		Renderer: lipgloss.NewRenderer(io.Discard), Dark: true,
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines {
		for _, key := range slices.Concat(l.up, l.said, l.call) {
			for _, msg := range messages(key) {
				app.Update(msg)
			}
		}
	}
	if err := recorder.Close(); err != nil {
		t.Fatal(err)
	}
}

// messages gives what the terminal makes of a key of the script, or of a text in quotes and enter.
func messages(key string) []tea.Msg {
	named := map[string]tea.KeyMsg{
		"enter": {Type: tea.KeyEnter}, "tab": {Type: tea.KeyTab}, "shift+tab": {Type: tea.KeyShiftTab},
		"space": {Type: tea.KeySpace, Runes: []rune{' '}}, "esc": {Type: tea.KeyEsc},
	}
	if msg, ok := named[key]; ok {
		return []tea.Msg{msg}
	}
	text, err := strconv.Unquote(key)
	if err != nil {
		return []tea.Msg{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(key)}}
	}
	var out []tea.Msg
	for _, r := range text {
		out = append(out, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
	return append(out, tea.KeyMsg{Type: tea.KeyEnter})
}
