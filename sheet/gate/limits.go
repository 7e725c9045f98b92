package gate

import "dryfit/sheet/gate/scan"

// The limits. A workbook of a shop stays far below each of them; what lies above is broken,
// made to harm, or better split.
const (
	MaxFile     = 64 << 20      // bytes of the file
	MaxEntries  = 5000          // entries of the package
	MaxUnpacked = 128 << 20     // bytes of all parts together, as they really unpack
	MaxRatio    = 200           // unpacked bytes for one packed byte, of an entry or of the file ...
	RatioFrom   = 10 << 20      // ... from this many unpacked bytes
	MaxDepth    = scan.MaxDepth // elements nested in a part
	MaxTag      = scan.MaxTag   // bytes of one tag with its attributes
	MaxAttrs    = scan.MaxAttrs // attributes of one element
	MaxRows     = 100_000       // lowest row of a tab that holds a value
	MaxColumns  = 500           // rightmost column of a tab that holds a value
	MaxStrings  = 500_000       // shared strings
	MaxSpan     = 30_000_000    // cells from column A to the last of each row, over all tabs; an empty row counts 2
	MaxParts    = 10_000        // rows of parts in a job; its results take up to 0.15 MB of memory a row
	lastRow     = 1_048_576     // of any tab (ECMA-376 Part 1, 18.3.1.73; common to all programs)
	lastColumn  = 16_384        // XFD
)
