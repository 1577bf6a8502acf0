package tui

// confirm asks a question that y answers with yes; any other key withdraws it and acts as usual.
func (a *App) confirm(words string, yes func()) {
	a.pose(words, binding{keys: []string{"y"}, act: func(a *App, _ string) {
		a.question = nil
		yes()
	}})
}
