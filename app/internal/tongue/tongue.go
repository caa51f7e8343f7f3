// Package tongue reads what the environment says of the user's language, and puts it right before the toolkit reads it: being
// imported is enough for that. It imports nothing but os, since of two packages that do not know each other Go initializes the
// one first whose imports are there first, so that this one comes before the toolkit's.
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

// Asked is the tag of the language that the environment asks for, two letters; "" where it asks for none.
func Asked(get func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := get(name); v != "" {
			if len(v) > 2 && v[2] != '_' && v[2] != '.' && v[2] != '@' || len(v) < 2 {
				return "" // C, POSIX, and what has three letters
			}
			return v[:2]
		}
	}
	return ""
}
