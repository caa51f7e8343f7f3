// Package tongue puts right what the environment says of the user's language, before anything reads it. It is there for being
// imported, and imports nothing but os: of two packages that do not know each other Go initializes the one first whose imports are
// there first, so that this one comes before the toolkit's.
package tongue

import "os"

func init() { mend(os.Getenv, os.Setenv) }

// mend names English where the environment names the language of programs, with a set of characters (C.UTF-8): the toolkit takes
// C for a language then, and complains on standard error that it knows none of that name.
func mend(get func(string) string, set func(name, value string) error) {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := get(name); v != "" {
			if len(v) > 2 && v[:2] == "C." && get("LANGUAGE") == "" {
				_ = set("LANGUAGE", "en") // where that cannot be set the complaint is all that comes of it
			}
			return
		}
	}
}
