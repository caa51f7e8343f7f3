package exchange

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// TestEverySentenceIsThere holds the keys in this package's source against the catalogue, both ways.
func TestEverySentenceIsThere(t *testing.T) {
	used := map[string]bool{}
	for _, kind := range []record.ItemKind{
		record.OwnerItem, record.EngineItem, record.HeadItem, record.SpringItem, record.PieceItem, record.RetainerItem,
		record.LocksItem, record.LocatorItem, record.SealItem, record.ValvePartItem, record.GaugeItem,
	} {
		used["exchange.item."+string(kind)] = true
	}
	for _, name := range []string{"string", "integer", "number", "object", "array", "boolean", "null"} {
		used["exchange.type."+name] = true
	}
	// Definitions with a pattern have a sentence of their name.
	for _, def := range regexp.MustCompile(`"([a-z]+)": \{[^{}]*"pattern": `).FindAllStringSubmatch(string(schema1)+string(schema2)+string(schema3)+string(schema4)+string(schema5), -1) {
		if def[1] != "cylinder" {
			used["exchange."+def[1]] = true
		}
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range regexp.MustCompile(`"(exchange\.[a-z0-9-]+)"`).FindAllSubmatch(text, -1) {
			used[string(key[1])] = true
		}
	}
	words := say.English().Words
	for key := range used {
		if words[key] == "" {
			t.Errorf("no sentence for %s", key)
		}
	}
	for key := range words {
		if strings.HasPrefix(key, "exchange.") && !used[key] {
			t.Errorf("sentence %s is never said", key)
		}
	}
}
