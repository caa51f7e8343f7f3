package task

import "keeperbook/model/record"

// NewGauge is a gauge that reads at the spring itself.
func (c *Counter) NewGauge(name string) (record.Gauge, error) {
	name, err := c.name(name)
	return record.Gauge{ID: NewID(), Name: name, Kind: record.HeightGauge}, err
}

// Through returns a gauge's setting in which one part of the stack is this thick; nothing typed takes it
// out.
func (c *Counter) Through(setting []record.Taken, part record.PartOfStack, text string) ([]record.Taken, error) {
	return c.bench.Through(setting, part, text)
}

// GaugeKinds are the kinds of gauges of the job.
func GaugeKinds() []record.GaugeKind {
	return record.GaugeKinds
}

// Conditions are the states of a spring when it goes on.
func Conditions() []record.Condition {
	return []record.Condition{record.New, record.RunIn, record.HeatCycled, record.Used}
}

// Sources say how a number came to be known.
func Sources() []record.Source {
	return []record.Source{record.Measured, record.Supplied, record.Estimated}
}
