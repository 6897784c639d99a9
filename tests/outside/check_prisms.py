"""Prisms of random outlines moved in and combined, judged by two libraries that are not ours.

Judges: shapely (GEOS) for what is left of an outline when its sides are moved in (`buffer` with mitred joins; where
each side has its own distance, half-planes one by one for a convex outline, else its moved sides met by numpy), and for volumes of upright prisms as areas times
heights; manifold3d for all booleans. Input: JSON lines on standard input, from the example `random_prisms` of
brimful-geom.

The two ways of moving in differ in what they are: a buffer lets a side vanish, our offset refuses then, since a
panel would be lost. A refusal is judged too: the buffer has to have lost a side, or come apart.

Tolerances: the judges set points of a metre apart by about 1e-10 m, on outlines of a few metres, so AREA;
volumes of booleans agree to 1e-9 relative, the project's bound.
"""

import json
import sys
from collections import Counter

import manifold3d
import numpy as np
import shapely
from shapely.geometry import Polygon

AREA = 1e-9
RELATIVE = 1e-9
# Sides that differ by rounding alone are laid on one grid: on the plain overlay the judge adds the two areas up.
GRID = 1e-12
# One in so many combined solids may touch itself: measures are whole millimetres, and lines fall on faces.
MOST_TOUCHING = 500
# Longer than any outline: the half-plane of a side is a box of this size.
FAR = 100.0
# Our offset takes points nearer than 1e-9 m for one, so a judge's side as short as that is a side lost, and
# a strip as narrow is none.
SHORTEST = 1e-8


def is_whole(shape, sides):
    """Whether a moved outline still has all its sides, and no strip of no width."""
    if shape.geom_type != "Polygon" or shape.is_empty or shape.interiors:
        return False
    if shape.buffer(-SHORTEST, join_style="mitre").geom_type != "Polygon":
        return False
    ring = np.array(shape.exterior.coords)
    lengths = np.hypot(*np.diff(ring, axis=0).T)
    return int((lengths > SHORTEST).sum()) >= sides


def mitred(outline, distances):
    """Each corner where its two moved sides meet; empty where a side turns round or sides cross."""
    points = np.array(outline)
    along = np.roll(points, -1, axis=0) - points
    normals = np.stack([along[:, 1], -along[:, 0]], axis=1) / np.hypot(*along.T)[:, None]
    offsets = (normals * points).sum(axis=1) - distances
    corners = [
        np.linalg.solve(normals[[i - 1, i]], offsets[[i - 1, i]]) for i in range(len(points))
    ]
    moved = np.roll(corners, -1, axis=0) - corners
    shape = Polygon(corners)
    if ((moved * along).sum(axis=1) <= 0).any() or not shape.is_valid:
        return Polygon()
    return shape


def behind_each(outline, distances):
    """What lies behind every side of a convex outline moved in by its own distance."""
    left = Polygon(outline)
    points = np.array(outline)
    for a, b, distance in zip(points, np.roll(points, -1, axis=0), distances):
        along = (b - a) / np.hypot(*(b - a))
        inward = np.array([-along[1], along[0]])
        foot = a + inward * distance
        near, far = foot - FAR * along, foot + FAR * along
        left = left.intersection(Polygon([near, far, far + FAR * inward, near + FAR * inward]))
    return left


def judge_moved(case, seen):
    """Both ways of moving in."""
    outline = case["outline"]
    for moved, kind in zip(case["moved"], ("alike", "each")):
        if kind == "alike":
            want = Polygon(outline).buffer(-moved["distances"][0], join_style="mitre", mitre_limit=1e6)
        elif case["kind"] == "convex":
            want = behind_each(outline, moved["distances"])
        else:
            want = mitred(outline, moved["distances"])
        left = moved["left"]
        if isinstance(left, str):
            assert not is_whole(want, len(outline)), f"refused ({left}), but whole: {case}"
            seen[f"{kind}, rightly refused"] += 1
            continue
        ours = Polygon(left["outline"])
        assert ours.is_valid and left["loops"] == 1, case
        differ = shapely.symmetric_difference(ours, want, grid_size=GRID).area
        seen["worst"] = max(seen["worst"], differ)
        assert differ < AREA, f"{kind}: {differ} m2 apart: {case}"
        assert abs(left["volume"] - want.area * left["height"]) < AREA, case
        # The judge must be able to say no.
        assert ours.buffer(-1e-5).symmetric_difference(want).area > AREA
        seen[kind] += 1


def solid(mesh):
    made = manifold3d.Manifold(
        manifold3d.Mesh64(
            np.array(mesh["vertices"], dtype=np.float64).reshape(-1, 3),
            np.array(mesh["triangles"], dtype=np.uint64).reshape(-1, 3),
        )
    )
    assert made.status() == manifold3d.Error.NoError, mesh
    return made


def levels(mesh):
    heights = [vertex[2] for vertex in mesh["vertices"]]
    return min(heights), max(heights)


def upright_volumes(case, pair):
    """Areas times heights: of the union, the difference and the common part of two upright prisms."""
    a = Polygon(case["outline"])
    x, y, _ = pair["origin"]
    b = shapely.affinity.translate(Polygon(pair["other"]), x, y)
    (low_a, high_a), (low_b, high_b) = levels(pair["a"]), levels(pair["b"])
    of_a, of_b = a.area * (high_a - low_a), b.area * (high_b - low_b)
    common = a.intersection(b).area * max(0.0, min(high_a, high_b) - max(low_a, low_b))
    return {"union": of_a + of_b - common, "difference": of_a - common, "intersection": common}


def judge_combined(case, seen):
    pair = case["combined"]
    a, b = solid(pair["a"]), solid(pair["b"])
    want = {"union": a + b, "difference": a - b, "intersection": a ^ b}
    flat = None if pair["lies"] else upright_volumes(case, pair)
    scale = a.volume() + b.volume()
    for name, judge in want.items():
        ours = pair[name]
        assert isinstance(ours, dict), f"{name}: {ours}: {case}"
        if not ours["vertices"]:
            assert judge.volume() < RELATIVE * scale, f"{name}: {judge.volume()} m3 lost: {case}"
            seen["empty"] += 1
            continue
        figures = [ours["volume"] - judge.volume()]
        # What touches itself within rounding has its volume, but is no proper solid, and our own proof says so.
        if ours["faults"]:
            seen["touching themselves"] += 1
        else:
            got = solid(ours)
            figures.append((got - judge).volume() + (judge - got).volume())
        if flat:
            figures.append(ours["volume"] - flat[name])
        for figure in figures:
            assert abs(figure) < RELATIVE * scale, f"{name}: {figures} of {scale}: {case}"
        seen["against areas" if flat else "across"] += 1
    # The judge must be able to say no.
    assert abs((a.translate((1e-6, 0, 0)) - a).volume()) > RELATIVE * scale


def main():
    seen = Counter(worst=0.0)
    for line in sys.stdin:
        case = json.loads(line)
        judge_moved(case, seen)
        judge_combined(case, seen)
    worst = seen.pop("worst")
    for kind in ("alike", "each"):
        refused, given = seen[f"{kind}, rightly refused"], seen[kind]
        # Refusals are judged, but a kernel that refuses most would be judged by little.
        assert given > 2 * refused > 0, f"{kind}: {refused} refused of {refused + given}"
    judged = seen["against areas"] + seen["across"]
    assert seen["touching themselves"] <= judged // MOST_TOUCHING, seen
    assert seen["against areas"] and seen["across"], "no case was read"
    counts = ", ".join(f"{count} {kind}" for kind, count in sorted(seen.items()))
    print(f"check_prisms: {counts}; outlines at most {worst:.1e} m2 apart")


if __name__ == "__main__":
    main()
