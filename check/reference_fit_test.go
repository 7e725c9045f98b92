package check_test

import (
	"encoding/json"
	"testing"

	"dryfit/check/chance"
	"dryfit/check/moisture"
)

const (
	shareOff      = 5e-4 // absolute, on a share that binds
	moistureShare = 1e-6 // with the Fahrenheit constants, which the reference uses
)

func referenceFit(t *testing.T, c referenceCase) {
	if c.has("n") {
		referenceRow(t, c)
		return
	}
	c.onlyInputs(t, "c", "sigma", "half")
	mean, unit := c.number(t, "c")
	clearance, err := chance.Sum(mean, chance.Contributor{Weight: 1, Sigma: c.in(t, "sigma", unit), Half: c.in(t, "half", unit)})
	if err != nil {
		t.Fatal(err)
	}
	share, err := clearance.Below(0)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{"bind_share": absolute(share, "1", shareOff)})
}

// referenceRow works one board onto n slots, free to shift along its length. The sampler of
// the engine, with its own standard error, must agree as well.
func referenceRow(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "n", "clearance_total", "sigma", "half", "errors")
	n, _ := c.number(t, "n")
	clearance, unit := c.each(t, "clearance_total", int(n))
	row := chance.Row{Slots: make([]chance.Slot, int(n))}
	for i := range row.Slots {
		row.Slots[i].Clearance = clearance[i]
	}
	if c.has("sigma") {
		sigma, is := c.each(t, "sigma", int(n))
		wantUnit(t, "sigma", is, unit)
		for i := range row.Slots {
			row.Slots[i].Sigma = sigma[i]
		}
	}
	if c.has("half") {
		half, is := c.each(t, "half", int(n))
		wantUnit(t, "half", is, unit)
		for i := range row.Slots {
			row.Slots[i].Half = half[i]
		}
	}
	var errors string
	c.read(t, "errors", &errors)
	switch errors {
	case "independent (each position)":
	case "chain (each gap)":
		row.Chain = true
	default:
		t.Fatalf("errors are %q, want independent or chain", errors)
	}
	sampled, off, err := row.Sample(200_000, 1)
	if err != nil {
		t.Fatal(err)
	}
	demands := map[string]demand{"bind_share": absolute(sampled, "1", 4*off)}
	share, err := row.Bind()
	if err == nil {
		bySampling := demands["bind_share"]
		demands["bind_share"] = func(t *testing.T, name string, raw json.RawMessage) {
			absolute(share, "1", shareOff)(t, name, raw)
			bySampling(t, name+" by sampling", raw)
		}
	} else if err != chance.ErrSample {
		t.Fatal(err)
	}
	c.demand(t, demands)
}

// each reads a list of n numbers, or one number for all n.
func (c referenceCase) each(t *testing.T, name string, n int) (values []float64, unit string) {
	t.Helper()
	var raw json.RawMessage
	unit = c.read(t, name, &raw)
	var one float64
	if json.Unmarshal(raw, &one) == nil {
		for range n {
			values = append(values, one)
		}
		return values, unit
	}
	if err := json.Unmarshal(raw, &values); err != nil || len(values) != n {
		t.Fatalf("%s: read %s, want a number or %d of them", name, raw, n)
	}
	return values, unit
}

func referenceMoisture(t *testing.T, c referenceCase) {
	c.onlyInputs(t, "T", "RH_low", "RH_high", "width_at_low", "coefficient_per_percent")
	emc, share := moisture.EMCFahrenheit, moistureShare
	heat, unit := c.number(t, "T")
	switch unit {
	case "degF":
	case "degC":
		emc, share = moisture.EMCCelsius, 1e-3
	default:
		t.Fatalf("T is in %q, want degF or degC", unit)
	}
	humidity, _ := c.number(t, "RH_low")
	dry, err := emc(heat, humidity)
	if err != nil {
		t.Fatal(err)
	}
	humidity, _ = c.number(t, "RH_high")
	damp, err := emc(heat, humidity)
	if err != nil {
		t.Fatal(err)
	}
	width, unit := c.number(t, "width_at_low")
	coefficient, _ := c.number(t, "coefficient_per_percent")
	growth, err := moisture.Growth(width, coefficient, dry, damp)
	if err != nil {
		t.Fatal(err)
	}
	c.demand(t, map[string]demand{
		"EMC_low":  relative(dry, "%", share),
		"EMC_high": relative(damp, "%", share),
		"growth":   relative(growth, unit, share),
	})
}
