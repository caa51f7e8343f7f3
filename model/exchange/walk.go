package exchange

import (
	"reflect"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// visitor looks at the leaves of a record that carry a meaning of their own. A nil func passes over.
type visitor struct {
	text     func(at place, text string) *say.Error
	stamp    func(at place, s record.Stamp) *say.Error
	date     func(at place, d record.Date) *say.Error
	quantity func(at place, q unit.Quantity) *say.Error
	taken    func(at place, all []record.Taken) *say.Error
}

var (
	stampType    = reflect.TypeFor[record.Stamp]()
	dateType     = reflect.TypeFor[record.Date]()
	quantityType = reflect.TypeFor[unit.Quantity]()
	takenType    = reflect.TypeFor[[]record.Taken]()
)

// walk visits every leaf under v by its JSON names, so that a noun that gains a field is looked at
// without anyone having to think of it. It stops at the first error.
func (see visitor) walk(v reflect.Value, at place) *say.Error {
	switch v.Type() {
	case stampType:
		if see.stamp != nil && v.Len() > 0 {
			return see.stamp(at, v.Interface().(record.Stamp))
		}
	case dateType:
		if see.date != nil && v.Len() > 0 {
			return see.date(at, v.Interface().(record.Date))
		}
	case quantityType:
		if see.quantity != nil {
			return see.quantity(at, v.Interface().(unit.Quantity))
		}
	case takenType:
		if see.taken != nil {
			if err := see.taken(at, v.Interface().([]record.Taken)); err != nil {
				return err
			}
		}
	}
	switch v.Kind() {
	case reflect.String:
		if see.text != nil {
			return see.text(at, v.String())
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return see.walk(v.Elem(), at)
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := see.walk(v.Index(i), append(at, strconv.Itoa(i))); err != nil {
				return err
			}
		}
	case reflect.Struct:
		for _, f := range fieldsOf(v.Type()) {
			if err := see.walk(v.Field(f.index), append(at, f.name)); err != nil {
				return err
			}
		}
	}
	return nil
}

// field is one of a noun by its JSON name.
type field struct {
	index int
	name  string
}

// fields are those of each type of noun: the same few dozen types are walked thousands of times.
var fields sync.Map

// fieldsOf returns those fields of a type that have something to be looked at; numbers have nothing.
func fieldsOf(t reflect.Type) []field {
	if known, ok := fields.Load(t); ok {
		return known.([]field)
	}
	var all []field
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Type.Kind() == reflect.Int || f.Type.Kind() == reflect.Int64 {
			continue
		}
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		all = append(all, field{i, name})
	}
	fields.Store(t, all)
	return all
}

// writable refuses texts that JSON cannot carry unchanged: encoding/json would put U+FFFD in the
// place of broken UTF-8 and say nothing.
func writable(noun any, at string) error {
	err := visitor{text: func(at place, text string) *say.Error {
		switch {
		case !utf8.ValidString(text):
			return at.fail("exchange.broken-text", short(text))
		case strings.ContainsRune(text, 0):
			return at.fail("exchange.nul")
		}
		return nil
	}}.walk(reflect.ValueOf(noun), place{at})
	if err != nil {
		return err
	}
	return nil
}
