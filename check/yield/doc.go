// Package yield knows proven bounds on what comes out of sheets: how many parts of one size
// one sheet can give at most, and how many sheets a list of parts takes at least. It makes
// no cutting plan, and knows no check, no verdict and no material. A bound says "not from
// one sheet" with certainty and never says "from one sheet".
//
// All lengths of one call are in one unit.
package yield
