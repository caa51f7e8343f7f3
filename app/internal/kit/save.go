package kit

import "keeperbook/model/say"

// Saving is a file that is about to leave the book, with the words that ask where to.
type Saving struct {
	Title, Label    string
	Path            string // as it is proposed
	Replace, Cancel string
	More            []Blank                   // asked for besides
	Take            func(more []string) error // takes what was answered to them; nil where nothing is
	// Write writes the file and says where it is. Where one is there already it is replaced only if replace
	// says so (say.Conflict).
	Write func(path string, replace bool) (say.Line, error)
}

// Save asks where a file goes and has it written. Before one that is there already is written over it asks, and
// whoever says no gets to the path again.
func Save(host Host, s Saving) {
	AskForm(host.Window(), s.Title, append([]Blank{{Label: s.Label, Start: s.Path}}, s.More...), func(texts []string) error {
		if s.Take != nil {
			if err := s.Take(texts[1:]); err != nil {
				return err
			}
		}
		told, err := s.Write(texts[0], false)
		if say.CodeOf(err) == say.Conflict {
			s.Path = texts[0]
			askReplace(host, s, err)
			return nil
		}
		if err == nil {
			host.Tell(told)
		}
		return err
	})
}

func askReplace(host Host, s Saving, there error) {
	Ask(host.Window(), s.Title, Sentence(there), []Choice{
		{Label: s.Cancel, Cancel: true, Do: func() { Save(host, s) }},
		{Label: s.Replace, Key: 'r', Do: func() {
			told, err := s.Write(s.Path, true)
			if err != nil {
				host.Fail(err)
				return
			}
			host.Tell(told)
		}},
	})
}
