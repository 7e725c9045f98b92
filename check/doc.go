// Package check holds the model of a job, the verdicts, and the one rule that turns
// ranges into verdicts. It knows no spreadsheet, no file and no clock: whoever reads a
// workbook hands it a Job, and gets back a Report.
//
// Lengths in a Job are in the job's own unit (inch or millimetre); with them go pounds
// and psi, or newtons and MPa (kilograms for weights).
package check
