// Package pattern draws the pieces of a cut list: full size as SVG or DXF R12
// for a plotter or a cutting machine, spread over sheets of printer paper, or
// small with their sizes for a page. A [Map] shows all panels of a cover and what
// becomes of their edges, a [Ring] the strip round a cushion, a [Front] the pattern
// of the cloth on the furniture, a [Landing] a motif on one piece.
//
// It stands on packages unit, shape, allowance and made; programs that draw stand on it.
//
// [Of] makes a [Pattern] of a cut panel, [Strip] one of a plain band. Fields
// that a drawing does not need may stay empty; the cut line may not.
//
// # Axes
//
// X is across the goods, Y along the grain, as in package allowance. Drawings
// keep that: the grain runs up the page. On a [Sheet] the origin is the lower
// left corner of the paper and Y points up as well.
//
// # Lines
//
// A pattern is a list of lines, each of a [Kind] with its own pen and dash, so
// that they can be told apart in black and white. The kinds are also the layers
// of a DXF file and the groups of an SVG file:
//
//	CUT    cut line and cut-outs, closed
//	TRIM   trim line where it is not the cut line, closed
//	SEAM   line that is sewn or folded, closed
//	NOTCH  from the cut line to the seam line
//	MARK   crosses, such as the places of buttons
//	GRAIN  the grain arrow
//	FOLD   edge of a half pattern that lies on a fold of the goods
//	TEXT   what is written on the piece
//	LABEL  along the edges: their names, what becomes of them, letters of notches
//
// # What is exact
//
// Coordinates in SVG and DXF files have six decimals of a millimetre and give
// every point back to the nanometre. Sizes in texts are rounded up, never down,
// to the step of their [Units]: a piece cut to what is written is never too
// small. The same pattern gives the same bytes.
//
// # Names
//
// Names, notes and goods may hold anything: they are written as text and can
// neither end it nor add to the drawing.
package pattern
