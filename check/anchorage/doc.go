// Package anchorage knows what keeps a case standing: the balance of moments about the edge
// on which it would turn, the pull on a fixing near its top, and what each foot carries when
// continuous shelves stand on its uprights. It knows no check, no verdict and no fixing's
// strength.
//
// Forces and lengths are in any coherent units: lbf and in, or N and mm.
package anchorage
