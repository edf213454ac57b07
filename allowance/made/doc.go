// Package made works out the parts of a cover that are made up of several
// pieces: cushions and their boxing, welt and bias strip, skirts, pleats,
// channels, tufting, and surfaces that are developed.
//
// It stands on packages unit, shape and allowance, and gives covers of panels;
// packages layout and job stand on it.
//
//	covers              Cushion, Ottoman, DropInSeat, Skirt, Channels, Tufting
//	strips              Boxing, Welt, WeltStrip, WeltRun, BiasTube, BiasStrips
//	surface work        BiscuitCover, Pleats, GatheredSkirt, PleatedSkirt,
//	                    KickPleatSkirt
//	developed surfaces  Dome, ConeFrustum, TubBand
//	laid over           Wrap, PatchLap
//
// Covers have panels and seams, so that a boxed cushion and a wing chair are the
// same kind of thing; what belongs to another cover, such as the top of a skirt, is
// an open seam.
//
// Sizes are finished sizes unless they are called cut. The bottom hides nothing:
// every allowance can be set by hand; see allowance.Exactly.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Where sources disagree
//
// The take-up of a cushion, the strip of a thick welt and the
// cloth of a deep button are each published or practised in more than one way.
// Each way has its own rule here, none is averaged. No source was found for
// the fullness of channels; geometry is used.
package made
