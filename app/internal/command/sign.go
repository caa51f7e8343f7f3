package command

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

// sign signs the sheet of a set-up, which closes it, or signs it as the second, and writes it. Where the file cannot be written
// nobody has signed.
func sign(ctx context.Context, env Env, args []string, o *options, paper pdf.Paper) error {
	key, role, err := unlock(env, o)
	if err != nil {
		return err
	}
	return working(ctx, env, args[0], func(d *task.Desk) error {
		setup, err := task.Find(ctx, d.Book, args[1], o.setup)
		if err != nil {
			return err
		}
		out := args[2]
		_, before := os.Lstat(out)
		deliver := func(file []byte) error { return files.Write(out, file) }
		s := task.Signature{Key: key, Name: key.Name, Role: role, When: env.Clock(), Paper: paper, Language: o.language, Second: o.withSecond}
		if o.asSecond {
			_, err = d.Countersign(ctx, setup, s, deliver)
		} else {
			_, err = d.Sign(ctx, setup, s, deliver)
		}
		if err != nil && errors.Is(before, fs.ErrNotExist) {
			os.Remove(out) // nobody signed what is in it
		}
		return err
	})
}

// unlock opens the key of a signer of this machine, or a key file, with the passphrase in a file or as it is typed.
func unlock(env Env, o *options) (key seal.Signer, role string, err error) {
	who, open := o.sign, signer.OpenFile
	role = o.role
	if !isKeyFile(o.sign) {
		s, err := env.Signers.Find(o.sign)
		if err != nil {
			return key, "", err
		}
		if role == "" {
			role = s.Role
		}
		who, open = s.Name, func(_, secret string) (seal.Signer, error) { return env.Signers.Unlock(s.ID, secret) }
	}
	secret, err := secretOf(env, o, who)
	if err != nil {
		return key, "", err
	}
	key, err = open(o.sign, secret)
	return key, role, err
}

// isKeyFile reports whether a word names a key file and no signer.
func isKeyFile(word string) bool {
	ending := strings.ToLower(filepath.Ext(word))
	return ending == ".p12" || ending == ".pfx"
}

// secretOf is a passphrase: the text of a file, of which the line's end does not count, or what somebody types.
func secretOf(env Env, o *options, who string) (string, error) {
	if o.secret == "" {
		if env.Secret == nil {
			return "", say.Fail(say.Invalid, "command.no-terminal")
		}
		return env.Secret(who)
	}
	secret, err := files.Read(o.secret, mostSecret)
	return strings.TrimRight(string(secret), "\r\n"), err
}

// mostSecret is longer than any passphrase.
const mostSecret = 64 << 10
