package exchange

import (
	"bytes"
	"cmp"
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"

	"keeperbook/model/say"
)

//go:embed schema/record-1.json
var schema1 []byte

//go:embed schema/record-2.json
var schema2 []byte

//go:embed schema/record-3.json
var schema3 []byte

//go:embed schema/record-4.json
var schema4 []byte

//go:embed schema/record-5.json
var schema5 []byte

// form is the schema of one format, ready to use. It is compiled when the first document of the format
// is read.
type form func() (*jsonschema.Schema, error)

var (
	form1 = compiled("urn:keeperbook:record:1", schema1)
	form2 = compiled("urn:keeperbook:record:2", schema2)
	form3 = compiled("urn:keeperbook:record:3", schema3)
	form4 = compiled("urn:keeperbook:record:4", schema4)
	form5 = compiled("urn:keeperbook:record:5", schema5)
)

func compiled(url string, text []byte) form {
	return sync.OnceValues(func() (*jsonschema.Schema, error) {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			return nil, err
		}
		c := jsonschema.NewCompiler()
		if err := c.AddResource(url, doc); err != nil {
			return nil, err
		}
		return c.Compile(url)
	})
}

// holds holds a document against the schema. Of several faults it names the first by place, and says
// how many more there are.
func (f form) holds(tree any) error {
	schema, err := f()
	if err != nil {
		return say.Fail(say.Internal, "exchange.schema").From(err)
	}
	err = schema.Validate(tree)
	if err == nil {
		return nil
	}
	var all *jsonschema.ValidationError
	if !errors.As(err, &all) {
		return say.Fail(say.Internal, "exchange.schema").From(err)
	}
	faults := leaves(all, nil)
	// The validator walks maps, whose order changes from run to run; the sentence must not.
	first := slices.MinFunc(faults, func(a, b *jsonschema.ValidationError) int {
		return cmp.Or(slices.Compare(a.InstanceLocation, b.InstanceLocation), cmp.Compare(rank(a), rank(b)))
	})
	fault := sentence(first, tree)
	if more := len(faults) - 1; more > 0 {
		fault.Line = say.New("exchange.and-more", fault.Line, more)
	}
	return fault
}

// leaves returns the faults themselves, without the groups that hold them.
func leaves(e *jsonschema.ValidationError, all []*jsonschema.ValidationError) []*jsonschema.ValidationError {
	if len(e.Causes) == 0 {
		return append(all, e)
	}
	for _, c := range e.Causes {
		all = leaves(c, all)
	}
	return all
}

// rank puts a misspelt key before the key that is missing because of it.
func rank(e *jsonschema.ValidationError) int {
	switch e.ErrorKind.(type) {
	case *kind.AdditionalProperties:
		return 0
	case *kind.Required:
		return 1
	}
	return 2
}

// sentence puts one fault into a sentence.
func sentence(e *jsonschema.ValidationError, tree any) *say.Error {
	at := place(e.InstanceLocation)
	switch k := e.ErrorKind.(type) {
	case *kind.AdditionalProperties:
		slices.Sort(k.Properties)
		return at.step(k.Properties[0]).located(at, "exchange.unknown-key", short(k.Properties[0]))
	case *kind.Required:
		slices.Sort(k.Missing)
		return at.fail("exchange.missing-key", strings.Join(k.Missing, ", "))
	case *kind.Type:
		return at.fail("exchange.wrong-type", say.New("exchange.type."+k.Got), say.New("exchange.type."+k.Want[0]))
	case *kind.Enum:
		return at.fail("exchange.not-one-of", short(fmt.Sprint(k.Got)), words(k.Want))
	case *kind.Const:
		return at.fail("exchange.not-one-of", short(fmt.Sprint(k.Got)), fmt.Sprint(k.Want))
	case *kind.Minimum:
		return at.fail("exchange.too-small", k.Got.RatString(), k.Want.RatString())
	case *kind.Maximum:
		return at.fail("exchange.too-large", k.Got.RatString(), k.Want.RatString())
	case *kind.MinItems:
		return at.fail("exchange.too-few", k.Got, k.Want)
	case *kind.MaxItems:
		return at.fail("exchange.too-many", k.Got, k.Want)
	case *kind.MinLength:
		return at.fail("exchange.blank")
	case *kind.Not:
		return at.fail("exchange.zero")
	case *kind.Pattern:
		// Every pattern belongs to a definition of its own, which has a sentence of the same name.
		return at.fail("exchange."+e.SchemaURL[strings.LastIndexByte(e.SchemaURL, '/')+1:], short(k.Got))
	}
	return at.fail("exchange.form")
}

// located fails about the place itself and says the other one.
func (p place) located(said place, key string, args ...any) *say.Error {
	return said.fail(key, args...).About(p.pointer())
}

func words(all []any) string {
	list := make([]string, len(all))
	for i, w := range all {
		if s, ok := w.(string); ok && s == "" {
			w = strconv.Quote(s)
		}
		list[i] = fmt.Sprint(w)
	}
	return strings.Join(list, ", ")
}
