package evaluate

import (
	"math"
	"strconv"

	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Study is what a study of a gauge comes to: how far readings of one thing scatter, and how far people
// differ. Struck readings do not count, and are still there to be seen.
type Study struct {
	Of     *record.Study
	Count  int         // readings that count
	People []Person    // in the order of their first readings
	Mean   unit.Length // of all that count

	// Known says that somebody read twice. Only then is there a scatter.
	Known   bool
	Scatter unit.Length // s of one reading, pooled over the people
	Freedom int         // its degrees of freedom
	Between unit.Length // s between people beyond what one scatters; nought for one person

	Outlying int      // index in the study's readings, −1 for none; it counts until somebody strikes it
	Why      say.Line // the rule that finds it
}

// Person is one of those who read.
type Person struct {
	Name  string
	Count int         // readings that count
	Mean  unit.Length // of those
}

// StudyOf works a study out: an analysis of variance, after [budget.StudyOf].
func StudyOf(of *record.Study) Study {
	s := Study{Of: of, Outlying: -1}
	var all []unit.Length
	var each [][]unit.Length // what counts of each person
	var at [][]int           // where that stands in the study
	who := map[string]int{}
	for i, r := range of.Readings {
		p, met := who[r.By]
		if !met {
			p = len(s.People)
			who[r.By] = p
			s.People, each, at = append(s.People, Person{Name: r.By}), append(each, nil), append(at, nil)
		}
		if r.Struck != nil {
			continue
		}
		all = append(all, r.Quantity.Length())
		each[p], at[p] = append(each[p], r.Quantity.Length()), append(at[p], i)
	}
	s.Count, s.Mean = len(all), unit.Mean(all)
	for p := range s.People {
		s.People[p].Count, s.People[p].Mean = len(each[p]), unit.Mean(each[p])
	}
	found, err := budget.StudyOf(each...)
	if err != nil {
		return s // nobody read twice
	}
	s.Known, s.Freedom = true, int(found.Pool.Nu)
	s.Scatter, s.Between = wholly(found.Pool.S), wholly(found.Between.S)
	if o := found.Outlying; o != nil {
		s.Outlying = at[o.Person][o.Reading]
		r := of.Readings[s.Outlying]
		s.Why = say.New("study.outlying", s.Outlying+1, r.Quantity, r.By, twoDecimals(o.G), twoDecimals(o.Limit))
	}
	return s
}

// wholly is the whole unit nearest to a number of them.
func wholly(x float64) unit.Length { return unit.Length(math.Round(x)) }

func twoDecimals(x float64) say.Number { return say.Number(strconv.FormatFloat(x, 'f', 2, 64)) }

// Readers counts the people of whom a reading counts.
func (s Study) Readers() int {
	n := 0
	for _, p := range s.People {
		if p.Count > 0 {
			n++
		}
	}
	return n
}

// Wanting returns how many more readings it takes, by people who have read already, until the scatter is
// known well enough to count. With fewer than [budget.LeastNu] degrees of freedom nothing would be within
// anything on it, and what is assumed of such a gauge is the honester figure.
func (s Study) Wanting() int {
	n := budget.LeastNu - s.Freedom
	if s.Readers() == 0 {
		n++ // the first reading of anybody scatters from nothing
	}
	return max(0, n)
}

// digits of a scatter that is kept: with a hundred readings it is not known to better than one in fourteen
// (s/√(2ν), JCGM 100:2008, E.4.3, from memory), and a third digit keeps it from being rounded in between.
const digits = 3

// Repeat returns what the gauge is to be known by from then on.
func (s Study) Repeat() record.Repeat {
	return record.Repeat{
		S:       unit.Worked(s.Scatter, s.Of.Unit, unit.Decimals(s.Scatter, s.Of.Unit, digits)),
		Freedom: strconv.Itoa(s.Freedom),
		Study:   s.Of.ID,
		People:  s.Readers(),
	}
}

// shownDigits are the significant digits of an uncertainty on screen (JCGM 100:2008, 7.2.6).
const shownDigits = 2

// Show returns a length of the study as it is printed beside its scatter: a mean to the digit at which the
// scatter ends, and the scatter itself to two digits.
func (s Study) Show(l unit.Length) unit.Quantity {
	places := unit.Decimals(s.Scatter, s.Of.Unit, shownDigits)
	if s.Scatter == 0 {
		places = unit.Decimals(least[s.Of.Unit], s.Of.Unit, 1)
	}
	return unit.Worked(l, s.Of.Unit, places)
}

// least is the finest that lengths are printed to where no scatter says better.
var least = map[unit.Symbol]unit.Length{unit.In: unit.Thou / 10, unit.Mm: unit.MM / 1000}
