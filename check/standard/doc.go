// Package standard is what the shop goes by: the value of every material, thickness,
// finish, fit, load and limit that no schedule says, each with its range, its source and
// how it is known. The built-in values stand under the shop's, the shop's under the job's.
// It knows no spreadsheet, no file and no job.
//
// Entries are found by three words, group, item and property:
//
//	material   MDF, birch plywood, red oak, ...   E, modulus of rupture, density, specific gravity,
//	           E over G, E across over along, Fc perpendicular, shear in use,
//	           compression across grain, compression along grain, shear along grain
//	panel      any panel                          Emin over E, Fc over modulus of rupture
//	lumber     hem-fir No. 2, ...                 Fb, Fv, Fc, Fc perpendicular, E, Emin
//	thickness  MDF, softwood plywood, ...         a property per thickness sold: "3/4 in", "19 mm"
//	sheet      MDF, birch plywood, ...            width, length; ", metric", ", long"; edge off square
//	build      glue line, contact cement, ...     thickness; sanding: removed per face
//	film       lacquer, enamel, primer, ...       dry per coat, wet per coat, volume solids
//	finish     paint, clear, prime, none, P1, ... film (per coated face), coats, cheek share, faces
//	fit        snug, slip, loose, hidden,         clearance (least, aimed at, most; after finish)
//	           painted slip, clear slip
//	spread     slot width, slot pitch, ...        CNC, table saw, hand; bow; caliper
//	load       books, display, linen, seat, ...   per length, per area, in all
//	limit      shelf sag, ...                     span over, at the eye, ...
//	creep      solid wood, plywood, MDF, ...      final over first sag
//	duration   books, stored goods, seat          CD
//	site       tape, laser, plumb, wall, ...      reading, lean, ...
//	cutting    inch, metric, kerf, ...            step
//	opening    case in opening, scribe, ...       clearance, ...
//	crew       crew, per head, ...                people, level, overhead
//	vehicle    cargo van, box truck               length, width, height
//	door       room door, lift car, ...           width, height, lost
//	fastener   No. 8, ...                         shank, root, Fyb; wood: G for screws
//	movement   red oak, MDF, ...                  radial, tangential, in plane, thickness
//	use        hanging depth, ...                 least
//
// [Table.Entries] lists them all; values.csv is the list.
package standard
