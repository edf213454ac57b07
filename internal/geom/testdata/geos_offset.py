"""Compares offsets with GEOS, through shapely. Reads cases as JSON on standard
input and writes one JSON object with the worst deviations.

A case: ring [[x, y], ...] in mm, anticlockwise; d in mm, inward if negative;
join 1 round, 2 mitre, 3 bevel; got: a list of polygons, each a list of rings.

Two references are used. "buffer" is GEOS's buffer of the whole outline. That
function first drops shallow dents of less than 1 % of the distance, which shows
on curves; so where an outline has such dents the reference is "parts": the
union of the outline, of GEOS's flat-capped buffer of every single edge, and of
its buffer of every corner that opens a gap.
"""
import json
import sys

from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.ops import unary_union

LIMIT = 1000.0  # mitre limit
SEGMENTS = 400  # chords in a quarter circle
TOLERANCE = 0.01  # mm


def turn(a, b, c):
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def shallow(ring, limit):
    n = len(ring)
    for i in range(n):
        a, b, c = ring[i - 1], ring[i], ring[(i + 1) % n]
        chord = ((c[0] - a[0]) ** 2 + (c[1] - a[1]) ** 2) ** 0.5
        if chord == 0 or abs(turn(a, b, c)) / chord < limit:
            return True
    return False


def parts(ring, d, join):
    """Offset out of single edges and corners."""
    poly = Polygon(ring)
    n = len(ring)
    sign = 1 if d > 0 else -1
    pieces = []
    for i in range(n):
        a, b, c = ring[i - 1], ring[i], ring[(i + 1) % n]
        pieces.append(LineString([a, b]).buffer(abs(d), cap_style=2))
        if turn(a, b, c) * sign > 0:
            pieces.append(LineString([a, b, c]).buffer(
                abs(d), SEGMENTS, cap_style=2, join_style=join, mitre_limit=LIMIT))
    band = unary_union(pieces)
    return poly.union(band) if d > 0 else poly.difference(band)


def clean(g):
    """Drops pieces thinner than the tolerance."""
    ps = [g] if isinstance(g, Polygon) else [p for p in getattr(g, "geoms", []) if isinstance(p, Polygon)]
    out = []
    for p in ps:
        if p.is_empty or p.area < TOLERANCE * p.length:
            continue
        holes = [h for h in p.interiors if Polygon(h).area >= TOLERANCE * h.length]
        out.append(Polygon(p.exterior, holes))
    return MultiPolygon(out)


def main():
    cases = json.load(sys.stdin)
    report = {"buffer": 0, "parts": 0, "empty": 0, "split": 0, "worst_mm": 0.0, "worst_case": -1,
              "worst_area_mm": 0.0, "failed": []}
    for k, c in enumerate(cases):
        ring, d, join = c["ring"], c["d"], c["join"]
        if shallow(ring, 0.03 * abs(d)):
            want, how = parts(ring, d, join), "parts"
        else:
            want, how = Polygon(ring).buffer(d, SEGMENTS, join_style=join, mitre_limit=LIMIT), "buffer"
        report[how] += 1
        want = clean(want)
        got = clean(MultiPolygon([(p[0], p[1:]) for p in c["got"] or []]))
        if not got.is_valid:
            report["failed"].append({"case": k, "why": "invalid"})
            continue
        if want.is_empty or got.is_empty:
            report["empty"] += 1
            if want.is_empty != got.is_empty:
                report["failed"].append({"case": k, "why": "one is empty", "area": [want.area, got.area]})
            continue
        report["split"] += len(want.geoms) > 1
        dev = want.boundary.hausdorff_distance(got.boundary)
        area = abs(want.area - got.area) / want.length
        if dev > report["worst_mm"]:
            report["worst_mm"], report["worst_case"] = dev, k
        report["worst_area_mm"] = max(report["worst_area_mm"], area)
        if dev > TOLERANCE or area > TOLERANCE:
            report["failed"].append({"case": k, "why": how, "deviation": dev, "area": area,
                                     "pieces": [len(want.geoms), len(got.geoms)], "d": d, "join": join, "kind": c["kind"]})
    json.dump(report, sys.stdout)


main()
