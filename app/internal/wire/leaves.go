//go:build cgo || !darwin

package wire

import (
	"path/filepath"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/choose"
	"keeperbook/app/internal/screen/copies"
	"keeperbook/app/internal/screen/due"
	"keeperbook/app/internal/screen/history"
	"keeperbook/app/internal/screen/life"
	"keeperbook/app/internal/screen/needs"
	"keeperbook/app/internal/screen/parts"
	"keeperbook/app/internal/screen/plan"
	"keeperbook/app/internal/screen/sheet"
	"keeperbook/app/internal/screen/shop"
	"keeperbook/app/internal/screen/signers"
	"keeperbook/app/internal/screen/study"
	"keeperbook/app/internal/screen/takein"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/app/internal/screen/verify"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// leaves makes the leaves of an open set-up, in the order of the work.
func leaves(host *shell.Shell, desk *task.Desk, bench *task.Bench) []shell.Tab {
	tab := func(key string, leaf kit.Leaf) shell.Tab {
		return shell.Tab{Key: key, Title: bench.Words().Line(say.New("shell.leaf-" + key)), Leaf: leaf}
	}
	return []shell.Tab{
		tab("needs", needs.New(host, bench)),
		tab("choose", choose.New(host, bench)),
		tab("parts", parts.New(host, bench)),
		tab("valves", valves.NewView(host, bench)),
		tab("plan", plan.New(host, bench)),
		tab("sheet", sheet.New(host, desk, bench)),
		tab("life", life.New(host, bench)),
	}
}

// checkPage makes the page of a signed sheet.
func checkPage(s *shell.Shell, desk *task.Desk, reading bool, path string, background func(work func())) shell.Pages {
	return verify.New(s, verify.NewPresenter(desk, reading, path), background)
}

// tablePage makes the page of a table that is about to be taken in.
func tablePage(host kit.Host, table *task.TableIn, background func(work func())) shell.Pages {
	return takein.New(host, table, background)
}

// duePage makes the page of what falls due in a book.
func duePage(s *shell.Shell, desk *task.Desk, background func(work func())) shell.Pages {
	return due.New(s, due.NewPresenter(desk), background)
}

// copiesPage makes the page of the copies of a book.
func copiesPage(s *shell.Shell, desk *task.Desk, background func(work func())) shell.Pages {
	return copies.New(s, copies.NewPresenter(desk), background)
}

// historyPage makes the page of what became of a set-up.
func historyPage(host kit.Host, bench *task.Bench, background func(work func())) shell.Pages {
	return history.New(host, bench, background)
}

// shopPages makes the pages that belong to the shop.
func shopPages(host kit.Host, desk *task.Desk, background func(work func())) (shell.Pages, error) {
	pages, err := shop.New(host, desk)
	if err != nil {
		return nil, err
	}
	if background != nil {
		pages.Background = background
	}
	pages.Study = func(gauge string, back func()) (shop.Panel, error) { return study.New(host, desk, gauge, back) }
	pages.Signers = func() shop.Panel {
		return signers.New(host, signers.NewPresenter(desk.Signers, desk.Held, pages.ShopName(), filepath.Dir(desk.Path())), background)
	}
	return pages, nil
}
