// Package chance knows how sizes scatter and what share of joints binds because of it: one
// joint whose clearance is a sum of normal and flat errors, and one long part that must go
// onto many slots at once. It knows no check, no verdict and no limit.
//
// All lengths of one call are in one unit, inches or millimetres, whichever the caller has.
// A share is a number from 0 to 1. Clearance below zero binds.
//
// Exact results rest on integration good to 1e-9 of share. The closed forms for a live cell
// (TailLive, Bounds) stand beside them.
package chance
