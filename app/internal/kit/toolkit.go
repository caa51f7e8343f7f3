package kit

import (
	"encoding/json"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"keeperbook/model/say"
)

// toolkitWords are the texts of the toolkit that can come before a person, by its own names: the menu of a text that is typed, and
// what a main menu without an end to the program would get.
var toolkitWords = map[string]string{
	"Cut": "kit.entry-cut", "Copy": "kit.entry-copy", "Paste": "kit.entry-paste", "Select all": "kit.entry-all", "Undo": "kit.entry-undo",
	"Redo": "kit.entry-redo", "Quit": "shell.menu-quit",
}

// Speak has the toolkit say its own texts in these words. It takes the language of the system and has no way to choose another, but
// lets a program put words of its own in the place of those of a language: they go in the place of the system's, and of English, which it
// speaks where it does not know the system's.
func Speak(words say.Printer) {
	theirs := make(map[string]string, len(toolkitWords))
	for name, key := range toolkitWords {
		theirs[name] = words.Line(say.New(key))
	}
	data, err := json.Marshal(theirs)
	if err != nil {
		fyne.LogError("the words of the toolkit", err)
		return
	}
	for _, locale := range []fyne.Locale{"en", lang.SystemLocale()} {
		// It refuses a language of which it does not know how it counts, and speaks English in its place.
		_ = lang.AddTranslationsForLocale(data, locale)
	}
}
