// Package sheet makes blocks of foam out of the sheets a merchant stocks:
// plies glued face to face where no sheet is thick enough, butt joins where
// none is large enough, and for every thickness the size of sheet that buys
// the least foam, with a place for every part.
//
// It stands on packages unit and foam.
package sheet
