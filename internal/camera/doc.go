// Package camera is the geometry of one photo of a flat thing: how places in a
// plane and pixels belong together, found from marks whose places are known.
//
// Lengths are millimetres in the plane (Y up), pixels in the picture (Y down,
// from its upper left corner, centres of pixels at a half). Every product is
// rounded before it is summed, so that all machines give the same bits.
package camera
