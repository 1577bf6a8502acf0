package tui

// nothingDone is what the status line says of a question that was answered with no.
const nothingDone = "no: nothing was done"

// confirm asks a question that y answers with yes; n and esc withdraw it with a word, any other key withdraws it and acts as
// usual.
func (a *App) confirm(words string, yes func()) {
	a.pose(words, binding{keys: []string{"y"}, act: func(a *App, _ string) {
		a.question = nil
		yes()
	}}, declining(nothingDone))
}

// declining gives the keys that answer a question with no, and what is said then.
func declining(words string) binding {
	return binding{keys: []string{"n", "esc"}, act: func(a *App, _ string) {
		a.withdraw(false)
		a.say(words)
	}}
}
