package tui

import tea "github.com/charmbracelet/bubbletea"

func keyMsg(runes string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(runes)} }

func pasteMsg(text string) tea.KeyMsg {
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true}
}

func clickAt(x, y int) tea.MouseMsg {
	return tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft}
}

func sizeMsg(w, h int) tea.WindowSizeMsg { return tea.WindowSizeMsg{Width: w, Height: h} }
