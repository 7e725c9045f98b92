// Package lift knows what a piece weighs, how many people a shop's figure asks for, and the
// weight that the NIOSH lifting equation recommends for one person. It knows no check, no
// verdict and no crew.
package lift
