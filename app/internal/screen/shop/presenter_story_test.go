package shop_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Retainers and locks get tags here, and each says where it is and what it ran there.
func TestPartsWithTags(t *testing.T) {
	ctx := context.Background()
	_, p := pages(t, demonstration(t))
	p.Go(shop.Springs)
	lists := p.Lists()
	if len(lists) != 4 || lists[2].Kind != record.RetainerItem || lists[3].Kind != record.LocksItem || len(lists[2].Lines) != 0 {
		t.Fatalf("%+v", lists)
	}
	if err := p.Add(ctx, record.RetainerItem, "R-03"); err != nil {
		t.Fatal(err)
	}
	if p.Title() != "R-03" || p.Used() != "Nobody says where it is." || !p.Known() {
		t.Errorf("%q, %q", p.Title(), p.Used())
	}
	put(t, p, "goes", "2026-03-10 OF-2P 3 ex")
	if got := p.Used(); got != "On OF-2P at 3 ex since 2026-03-10" {
		t.Errorf("%q", got)
	}
	story := strings.Join(p.Sections()[1].Notes, "\n")
	if !strings.HasPrefix(story, "Since 2026-03-10 on OF-2P at 3 ex; ") || !strings.Contains(story, " hours, ") || !strings.Contains(story, "valve cycles") {
		t.Errorf("%q", story)
	}
	if err := p.Put(ctx, "goes", "2026-03-09 box 4"); say.CodeOf(err) != say.Invalid {
		t.Errorf("%v", err)
	}
	put(t, p, "goes", "2026-05-01 box 4")
	if got := p.Used(); got != "Since 2026-05-01: box 4" {
		t.Errorf("%q", got)
	}
	if l := p.Lists()[2].Lines; len(l) != 1 || l[0].Text != "R-03" || l[0].More == "" {
		t.Errorf("%+v", l)
	}
	if err := p.Discard(ctx); err != nil || len(p.Lists()[2].Lines) != 0 {
		t.Errorf("%v, %+v", err, p.Lists()[2])
	}
}
