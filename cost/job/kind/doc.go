// Package kind holds kinds of furniture as data: which measures a tape takes, and
// what panels, seams, fastenings and cushions follow from them.
//
// Each kind is one file of the folder kinds: measures with where the tape goes,
// goods by role, and a piece of furniture in the words of the job file whose
// lengths are formulas in braces, such as "{seat width + 2 in}". [Kind.Write] puts
// measures and goods in their place. It stands on unit and unit/cite alone;
// package job reads what it writes.
package kind
