package record

import "keeperbook/model/unit"

// GaugeKind is what sort of gauge it is.
type GaugeKind string

// The kinds of gauges of the job.
const (
	HeightGauge   GaugeKind = "height-gauge"
	Caliper       GaugeKind = "caliper"
	Micrometer    GaugeKind = "micrometer"
	DialIndicator GaugeKind = "dial-indicator"
	DepthGauge    GaugeKind = "depth-gauge"
	SpringTester  GaugeKind = "spring-tester"
	Fixture       GaugeKind = "fixture"
	FeelerGauge   GaugeKind = "feeler-gauge"
)

// GaugeKinds lists them in the order they are asked for.
var GaugeKinds = []GaugeKind{
	HeightGauge, Caliper, Micrometer, DialIndicator, DepthGauge, SpringTester, Fixture, FeelerGauge,
}

// Gauge is one gauge of the shop with its standing setting, which [Gauge.SettingFor] gives by kind of
// reading, and with what is known of how well it reads. A reading keeps a copy of the setting it was
// taken under. Of a spring tester step, calibration and repeat are those of its height scale.
type Gauge struct {
	ID          string         `json:"id"`
	Name        string         `json:"name"`
	Kind        GaugeKind      `json:"kind"`
	Number      string         `json:"number,omitempty"` // the shop's own mark on it
	Setting     []Taken        `json:"setting,omitempty"`
	Step        *unit.Quantity `json:"step,omitempty"`        // digital step, or the smallest part that is read on the scale
	Calibration *Calibration   `json:"calibration,omitempty"` // the last one
	Repeat      *Repeat        `json:"repeat,omitempty"`      // absent: no study was made
	Note        string         `json:"note,omitempty"`
	LoadScale   *LoadScale     `json:"loadScale,omitempty"` // of a spring tester: how well it shows loads
}

// Calibration is what a certificate says of a gauge. Its standard uncertainty is U/k.
type Calibration struct {
	U           unit.Quantity `json:"u"` // expanded uncertainty
	K           string        `json:"k"` // coverage factor as a decimal, mostly 2
	Date        Date          `json:"date,omitempty"`
	Due         Date          `json:"due,omitempty"`
	Certificate string        `json:"certificate,omitempty"` // its number
	By          string        `json:"by,omitempty"`          // who calibrated it
}

// Repeat is how far readings of one and the same thing scatter on a gauge.
type Repeat struct {
	S       unit.Quantity `json:"s"`                // pooled standard deviation of one reading
	Freedom string        `json:"freedom"`          // its degrees of freedom as a decimal
	Study   string        `json:"study,omitempty"`  // id of the study it comes from, which stays in the book of the shop that made it
	People  int           `json:"people,omitempty"` // how many people took part
}

// LoadScale is what is known of the scale on which a spring tester shows loads. Its quantities are loads.
type LoadScale struct {
	Step        *unit.Quantity `json:"step,omitempty"`
	Calibration *Calibration   `json:"calibration,omitempty"`
	Repeat      *Repeat        `json:"repeat,omitempty"`
	Weights     *Weights       `json:"weights,omitempty"`
}

// Weights is what a spring tester showed under weights that somebody put on it. The curve through them is
// taken off loads that were read from its date on, off all of them where it has none: the scale may have been
// set right that day.
type Weights struct {
	Points  []Weighing `json:"points"`
	Degree  int        `json:"degree,omitempty"`  // 1 a straight line, 2 a parabola; absent: whichever the points are bent to
	Gravity string     `json:"gravity,omitempty"` // of the place in m/s², a decimal, where weights are entered by their mass; absent: they are entered as loads
	Date    Date       `json:"date,omitempty"`
	By      string     `json:"by,omitempty"`
}

// Weighing is one weight, or several at once: the load that was put on, and what was shown.
type Weighing struct {
	Applied unit.Quantity `json:"applied"`
	Shown   unit.Quantity `json:"shown"`
}

// SettingFor returns what a reading of this kind goes through on the gauge, to be kept with the
// reading. The zero offset is in everything that the gauge shows. Lid, locator and jaws are in a height
// that is taken between two lands; of a depth from a datum only what lies at its far end is; and in a
// lift, a gap or a lash they are not. Of a load, what comes off is off the height it was taken at.
func (g *Gauge) SettingFor(kind Kind) []Taken {
	var all []Taken
	for _, t := range g.Setting {
		if t.Part == ZeroOffset || goesThrough(kind, t.Part) {
			all = append(all, t)
		}
	}
	return all
}

func goesThrough(kind Kind, part PartOfStack) bool {
	switch kind {
	case BaseHeight, CheckHeight, BindReading, SeatLoad:
		return true
	case SeatDepth:
		return part == Floor
	case RetainerDepth:
		return part == Lid
	}
	return false
}
