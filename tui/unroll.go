package tui

import tea "github.com/charmbracelet/bubbletea"

// unroll gives the keys of one message, in the order in which they were pressed. Keys joined in one read come as one
// message; an alt+key is esc, then the key. A paste has no keys.
//
// Four and more keys of one message came in one read, so they may also be a paste of a terminal that does not
// bracket pastes; whoever knows which keys have a meaning decides that.
func unroll(msg tea.KeyMsg) (keys []tea.KeyMsg, paste bool) {
	runes := msg.Runes
	if msg.Paste {
		if len(runes) == 0 || runes[0] != burstMark {
			return nil, true
		}
		runes = runes[1:]
	}
	if msg.Alt {
		keys = append(keys, tea.KeyMsg{Type: tea.KeyEsc})
	}
	if msg.Type != tea.KeyRunes {
		msg.Alt = false
		return append(keys, msg), false
	}
	for _, r := range runes {
		keys = append(keys, single(r))
	}
	return keys, false
}

// single is the message that r alone would have come as.
func single(r rune) tea.KeyMsg {
	switch {
	case r < ' ' || r == 0x7f: // these types are numbered as the control characters are
		return tea.KeyMsg{Type: tea.KeyType(r)}
	case r == ' ':
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{r}}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}
}
