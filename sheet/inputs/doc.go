// Package inputs writes the input workbook of a job: a tab for each thing the job lacks, with
// what dryfit found out by itself filled in, and the measure form to print. It knows how the
// tabs look and which words the reader knows them by; what is inferred, and what turns a
// verdict, it takes from the report. Nothing in it depends on the clock.
//
// A row that dryfit filled in is a guess until somebody writes "yes" beside it or types over
// it: Settle takes such rows out of a job again, or marks them as inferred.
package inputs
