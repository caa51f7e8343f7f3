package wire

import (
	"fmt"
	"io"
	"os"

	"golang.org/x/term"

	"keeperbook/model/say"
)

// AskSecret asks for a passphrase where somebody sits at a terminal; what is typed is not shown. It fails (say.Invalid) where
// nobody does: a script hands it over in a file.
func AskSecret(who string) (string, error) {
	in := int(os.Stdin.Fd())
	if !term.IsTerminal(in) {
		return "", say.Fail(say.Invalid, "command.no-terminal")
	}
	fmt.Fprint(os.Stderr, say.English().Line(say.New("command.secret", who)))
	secret, err := term.ReadPassword(in)
	fmt.Fprintln(os.Stderr) // the Enter was not shown either
	if err != nil {
		return "", say.Fail(say.Invalid, "command.no-terminal").From(err)
	}
	return string(secret), nil
}

// watched reports whether what is written goes to a terminal, where somebody sees it as it comes.
func watched(to io.Writer) bool {
	f, ok := to.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
