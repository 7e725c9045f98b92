// Package part writes the parts that make up one tab of a workbook: the worksheet, its notes
// and its drawing. It knows their XML (ECMA-376 Part 1); it must not know what a cell means,
// which styles there are, or what package the parts go into.
//
// Text is appended to one buffer, without reflection and without an allocation for a cell: the
// tabs of a job hold tens of thousands of cells.
package part

// Namespaces of parts; those of the worksheet differ between the conformance classes and are
// given by whoever places it.
const (
	Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	Rels = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
)

const declaration = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// pointsPerPixel is by what anchors of notes measure.
const pointsPerPixel = 0.75
