// Package moisture knows how much wood and panels grow and shrink with the damp of the room:
// the moisture content that wood settles at, and the movement that follows. It knows no check,
// no verdict and no species; coefficients come from the caller.
//
// Moisture content is in per cent of dry weight, relative humidity a number from 0 to 1.
package moisture
