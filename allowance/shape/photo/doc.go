// Package photo takes the outline of a panel from a photo.
//
// The panel lies flat. Marks whose true places are known lie in the same plane:
// a printed page of them ([Page]), several pages anywhere round the panel, or
// points whose distances were taped. [See] finds from where they are seen how the
// picture shows the plane: its perspective and the bend of its lens. [View.Point]
// then gives the place of every pixel, and [Fit] makes an outline of the points of
// a border. This package reads no pictures: whoever finds the marks and the
// border in one, by program or by eye, gives their pixels.
//
// It stands on packages unit and shape.
//
// # How good it is
//
// [View.ErrorOf] says how far an outline may be off, at 95 %, and what makes up
// the error. The marks must lie round the panel or on two sides of it: a page
// beside a panel tells little about its far end. The largest part is most often the
// scale, so measure the printed page with a rule; see [Page.Printed].
// The error does not hold what a picture cannot tell: cloth that does not lie
// flat, and a page that is not.
//
// # Axes
//
// Places are those of the first page, Y up. Pixels count from the upper left
// corner of the picture, Y down, the middle of a pixel at a half.
package photo
