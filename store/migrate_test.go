package store

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// planted is the program's own steps and one more.
func planted(t *testing.T, text string) migrations {
	t.Helper()
	own := steps()
	names, err := own.list()
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"0008_more.sql": {Data: []byte(text)}}
	for _, name := range names {
		step, err := fs.ReadFile(own.files, name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: step}
	}
	return migrations{files}
}

// A book without a place for the shop's rules is copied, brought to today's form and takes them. Its
// record is as it was.
func TestBookBeforeTheShopsRules(t *testing.T) {
	ctx := context.Background()
	path := form(t, 1)
	untouched(t, filepath.Dir(path), func() {
		_, err := OpenReadOnly(ctx, path, options())
		refused(t, err, say.ReadOnly, "form is 1", "Open it once for writing")
	})
	b, err := Open(ctx, path, options())
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	got, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if rules, err := b.ShopRules(ctx, unit.In); err != nil || cmp.Diff(record.ShopRules{Length: unit.In}, rules) != "" {
		t.Errorf("%+v, %v", rules, err)
	}
	own := record.ShopRules{
		Length: unit.Mm, Decision: record.Plain, Sizes: []unit.Quantity{inch(".015", 3_810_000)},
		Lengths: map[record.RuleKey]unit.Quantity{record.RuleAgree: inch(".004", 1_016_000)},
	}
	keep(t, b, "rules", "", record.Put("", own))
	if rules, err := b.ShopRules(ctx, unit.Mm); err != nil || cmp.Diff(own, rules) != "" {
		t.Errorf("%+v, %v", rules, err)
	}
	sound(t, b)

	// The copy made before has the first form still, and the same record.
	copied := filepath.Join(filepath.Dir(path), "bench before 2 20260302T120000Z.keeperbook")
	if header, err := checkHeader(copied, os.O_RDONLY, 1); err != nil || header != 1 {
		t.Errorf("the copy has form %d, %v", header, err)
	}
	again, err := Open(ctx, copied, options())
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if was, err := again.Record(ctx, "S-1"); err != nil || cmp.Diff(got, was) != "" {
		t.Errorf("the copy holds another record, %v", err)
	}
}

// The shop's rules are in the history as everything is, and in no record.
func TestShopRulesInTheHistory(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	rules := record.ShopRules{Length: unit.In, Lengths: map[record.RuleKey]unit.Quantity{record.RuleSeal: inch(".060", 15_240_000)}}
	keep(t, b, "rules", "", record.Put("", rules))
	rules.Decision, rules.Lengths = record.Plain, map[record.RuleKey]unit.Quantity{record.RuleRated: inch(".750", 190_500_000)}
	keep(t, b, "other rules", "", record.Put("", rules))
	var before, after, fields string
	_, err := one(ctx, b.desk, `SELECT before, after, fields FROM event WHERE item_kind = 'shop-rules' ORDER BY seq DESC LIMIT 1`,
		nil, &before, &after, &fields)
	if err != nil || fields != "decision,lengths" || !strings.Contains(before, ".060") || strings.Contains(after, ".060") {
		t.Errorf("%s → %s (%s), %v", before, after, fields, err)
	}
	if r, err := b.Record(ctx, "S-1"); err != nil || cmp.Diff(rich(), r) != "" {
		t.Errorf("the record changed, %v", err)
	}
	sound(t, b)
	keep(t, b, "none", "", record.Remove("", rules))
	if rules, err := b.ShopRules(ctx, unit.In); err != nil || rules.Lengths != nil {
		t.Errorf("%+v, %v", rules, err)
	}
	_, err = b.Keep(ctx, record.Action{Token: "furlongs", At: noon, Edits: []record.Edit{record.Put("", record.ShopRules{Length: "fur"})}})
	if err == nil {
		t.Error("rules in furlongs were kept")
	}
	// A state that is not what the history comes to is named.
	if err := b.desk.exec(ctx, `INSERT INTO shop_rules VALUES ('mm', 1, '{"length":"in"}')`); err != nil {
		t.Fatal(err)
	}
	report, err := b.Examine(ctx)
	if err != nil || report.Sound() {
		t.Errorf("rules that nobody kept were not found, %v", err)
	}
}

func TestMigrationCopiesFirst(t *testing.T) {
	ctx := context.Background()
	path := closedBook(t)
	backups := t.TempDir()
	o := Options{Clock: clock, Backups: backups}
	copied := filepath.Join(backups, "bench before 8 20260302T120000Z.keeperbook")
	writeFile(t, copied, "an older copy of that very name")

	b, err := open(ctx, path, o, planted(t, `ALTER TABLE owner ADD COLUMN since TEXT; CREATE TABLE more (x TEXT) STRICT;`))
	if err != nil {
		t.Fatal(err)
	}
	end := b.chainEnd(t)
	if version, err := b.desk.version(ctx); err != nil || version != 8 {
		t.Errorf("version %d, %v", version, err)
	}
	keep(t, b, "after", "S-1", record.Put("S-1", height(in1, 1700)))
	var was what
	var body string
	if _, err := one(ctx, b.desk, `SELECT what, after FROM event WHERE seq = ?`, []any{end.seq}, &was, &body); err != nil {
		t.Fatal(err)
	}
	if was != checkpoint || !strings.HasPrefix(body, `{"schema":8,"state":"`) {
		t.Errorf("the last event is %s %s", was, body)
	}
	for _, look := range []func(context.Context, source) (*say.Line, say.Line, error){lookAtHistory, lookAtState} {
		if err := b.read(ctx, func(src source) error {
			trouble, _, err := look(ctx, src)
			if trouble != nil {
				t.Error(say.English().Line(*trouble))
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	// The copy is the book as it was, under a name of its own.
	if text, err := os.ReadFile(copied); err != nil || !strings.HasPrefix(string(text), "an older copy") {
		t.Errorf("%q %v", text, err)
	}
	readsEverything(t, strings.TrimSuffix(copied, ".keeperbook")+" 2.keeperbook")
	// The program of before refuses the book of now.
	untouched(t, filepath.Dir(path), func() {
		_, err = Open(ctx, path, options())
		refused(t, err, say.Newer, "form is 8")
	})
	if _, err := openReadOnly(ctx, path, 9); say.CodeOf(err) != say.ReadOnly {
		t.Errorf("a book that must be migrated first: %v", err)
	}
}

func TestFailedMigrationLeavesTheBook(t *testing.T) {
	ctx := context.Background()
	for name, second := range map[string]string{
		"bad SQL after good":   `CREATE TABLE more (x TEXT) STRICT; INSERT INTO more VALUES ('x'); ALTER TABLE nothing ADD COLUMN x TEXT;`,
		"rows without parents": `PRAGMA defer_foreign_keys = 1; INSERT INTO engine VALUES ('E-9', 'O-9', 'x', 1, '{"id":"E-9","owner":"O-9","name":"x"}');`,
		"rewritten history":    `UPDATE event SET by = 'x';`,
	} {
		t.Run(name, func(t *testing.T) {
			path := closedBook(t)
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			_, err = open(ctx, path, options(), planted(t, second))
			if say.CodeOf(err) != say.Internal || !strings.Contains(err.Error(), "form 8, and is as it was before") {
				t.Fatal(err)
			}
			after, err := os.ReadFile(path)
			if err != nil || !bytes.Equal(before, after) {
				t.Errorf("the book is not as it was, %v", err)
			}
			readsEverything(t, path)
			readsEverything(t, filepath.Join(filepath.Dir(path), "bench before 8 20260302T120000Z.keeperbook"))
		})
	}
}

// Without a copy there is no migration.
func TestNoMigrationWithoutACopy(t *testing.T) {
	path := closedBook(t)
	o := Options{Clock: clock, Backups: filepath.Join(t.TempDir(), "no such folder")}
	untouched(t, filepath.Dir(path), func() {
		_, err := open(context.Background(), path, o, planted(t, `CREATE TABLE more (x TEXT) STRICT`))
		refused(t, err, say.NotFound)
	})
}

func TestAMissingStepIsNoticed(t *testing.T) {
	m := migrations{fstest.MapFS{"0001_a.sql": {}, "0003_b.sql": {}}}
	if _, err := m.list(); err == nil {
		t.Error("step 2 is missing")
	}
}
