package tongue

import "testing"

func TestMend(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want string
	}{
		{map[string]string{"LANG": "C.UTF-8"}, "en"},
		{map[string]string{"LANG": "C.UTF-8", "LC_ALL": "de_DE.UTF-8"}, ""},
		{map[string]string{"LANG": "es_ES.UTF-8", "LC_MESSAGES": "C.utf8"}, "en"},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "de:en"}, "de:en"},
		{map[string]string{"LANG": "C"}, ""},
		{map[string]string{}, ""},
	} {
		env := c.env
		mend(func(name string) string { return env[name] }, func(name, value string) error { env[name] = value; return nil })
		if env["LANGUAGE"] != c.want {
			t.Errorf("%v, want the language %q", env, c.want)
		}
	}
}

func TestAsked(t *testing.T) {
	for value, want := range map[string]string{"de_AT.UTF-8": "de", "es": "es", "C": "", "C.UTF-8": "", "POSIX": "", "": "", "ca@valencia": "ca", "gsw_CH": ""} {
		if got := Asked(func(name string) string { return map[string]string{"LANG": value}[name] }); got != want {
			t.Errorf("%q asks for %q, want %q", value, got, want)
		}
	}
}
