package sheet

import (
	"context"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Sign asks for a key file and its passphrase, and signs the pages that are in sight. From then on nothing of the set-up
// changes, which is said before.
func (v *View) Sign() {
	if signed := v.presenter.Signed(); signed != "" {
		v.host.Fail(kit.Said(v.presenter.Words(), say.Fail(say.Conflict, "sign.already", signed)))
		return
	}
	kit.AskForm(v.host.Window(), v.say("sign.title"), []kit.Blank{
		{Label: v.say("sign.key-file"), Start: v.presenter.KeyFile()}, {Label: v.say("sign.secret"), Hide: true},
		{Label: v.say("sign.name")}, {Label: v.say("sign.role")},
	}, func(texts []string) error {
		err := v.presenter.Sign(context.Background(), task.Signing{KeyFile: texts[0], Secret: texts[1], Name: texts[2], Role: texts[3]})
		if err != nil {
			return kit.Said(v.presenter.Words(), err)
		}
		v.Refresh()
		v.host.Changed()
		v.host.Tell(say.New("sign.done"))
		return nil
	})
}

// MakeKey asks whose a new key is, and makes it.
func (v *View) MakeKey() {
	kit.AskForm(v.host.Window(), v.say("sign.key-title"), []kit.Blank{
		{Label: v.say("sign.key-name")}, {Label: v.say("sign.key-file"), Start: v.presenter.KeyFile()},
		{Label: v.say("sign.secret-new"), Hide: true}, {Label: v.say("sign.secret-again"), Hide: true},
	}, func(texts []string) error {
		told, err := v.presenter.MakeKey(task.NewKey{Name: texts[0], File: texts[1], Secret: texts[2], Again: texts[3]})
		if err != nil {
			return kit.Said(v.presenter.Words(), err)
		}
		v.host.Tell(told)
		return nil
	})
}
