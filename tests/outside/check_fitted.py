"""What is fitted into random spaces, judged by libraries and means that are not ours.

Judges: manifold3d (its own build of its own boolean, in C++) for what leaves a space and for offsets;
brute force over the grid of all faces, which holds the largest box of a space with square corners, for
the box and its bound. Input: JSON lines on standard input, from the example `fitted_bodies` of brimful-tank.

Tolerance 1e-9 m3, a cubic millimetre: the judge sets corners of a metre apart by about 1e-10 m, on
faces of up to a square metre. Volumes agree to 1e-9 relative, the project's bound.
"""

import json
import sys

import manifold3d
import numpy as np

OUTSIDE = 1e-9
RELATIVE = 1e-9
# What the search for the box leaves open: its own gap, and the draw-in of its barrier.
GAP = 0.021
# The offset of the example.
MOVED = 0.0037


def solid(mesh):
    mesh64 = manifold3d.Mesh64(
        np.array(mesh["vertices"], dtype=np.float64), np.array(mesh["triangles"], dtype=np.uint64)
    )
    made = manifold3d.Manifold(mesh64)
    assert made.status() == manifold3d.Error.NoError
    assert abs(made.volume() / mesh["volume"] - 1) < RELATIVE, (made.volume(), mesh["volume"])
    return made


def box(low, high):
    size = np.subtract(high, low)
    return manifold3d.Manifold.cube(tuple(size)).translate(tuple(low))


def corners(case):
    """The allowed box and what is taken from it, metres, from the measures alone."""
    keep = case["clearance"]
    long, wide, high = case["size"]
    # It stands on the floor; the clearance is kept at the sides and above.
    allowed = ((keep, keep, 0), (long - keep, wide - keep, high - keep))
    taken = [
        (np.subtract(low, keep), np.add(high, keep)) for low, high in case["obstacles"]
    ]
    metres = lambda pair: tuple(np.asarray(v, dtype=float) / 1e3 for v in pair)
    return metres(allowed), [metres(pair) for pair in taken]


def largest_box(allowed, taken):
    """By brute force: a largest box is held at every side by a face, so its sides are among theirs."""
    low, high = allowed
    axes = []
    for i in range(3):
        at = {low[i], high[i]} | {v[i] for pair in taken for v in pair}
        axes.append(np.array(sorted(v for v in at if low[i] <= v <= high[i])))
    middles = [(a[1:] + a[:-1]) / 2 for a in axes]
    x, y, z = np.meshgrid(*middles, indexing="ij")
    full = np.zeros(x.shape, dtype=np.int64)
    for a, b in taken:
        inside = (x > a[0]) & (x < b[0]) & (y > a[1]) & (y < b[1]) & (z > a[2]) & (z < b[2])
        full |= inside
    sums = np.zeros(tuple(n + 1 for n in full.shape), dtype=np.int64)
    sums[1:, 1:, 1:] = full.cumsum(0).cumsum(1).cumsum(2)
    pairs = [[(i, j) for i in range(len(a)) for j in range(i + 1, len(a))] for a in axes]
    best = 0.0
    for i0, i1 in pairs[0]:
        for j0, j1 in pairs[1]:
            slab = sums[i1, j1] - sums[i0, j1] - sums[i1, j0] + sums[i0, j0]
            area = (axes[0][i1] - axes[0][i0]) * (axes[1][j1] - axes[1][j0])
            for k0, k1 in pairs[2]:
                if slab[k1] == slab[k0]:
                    best = max(best, area * (axes[2][k1] - axes[2][k0]))
    return best


def main():
    spaces = count = boxes = offsets = 0
    worst = loosest = 0.0
    for line in sys.stdin:
        case = json.loads(line)
        free, allowed = solid(case["free"]), solid(case["allowed"])
        if case["lean"] == 0:
            room, taken = corners(case)
            ours = box(*room)
            for pair in taken:
                ours -= box(*pair)
            assert abs(ours.volume() - allowed.volume()) < OUTSIDE, f"space {spaces}: what is allowed"
            most = largest_box(room, taken)
            assert case["box"] <= most * (1 + RELATIVE), f"space {spaces}: box over the largest"
            assert case["bound"] >= most * (1 - RELATIVE), f"space {spaces}: bound under the largest"
            assert case["box"] >= most * (1 - GAP), f"space {spaces}: {case['box']} of {most}"
            loosest = max(loosest, 1 - case["box"] / most)
            boxes += 1
        for fitted in case["fitted"]:
            body = solid(fitted)
            outside = max((body - free).volume(), (body - allowed).volume())
            worst = max(worst, outside)
            assert outside < OUTSIDE, f"space {spaces}: {outside} m3 outside"
            count += 1
        if case["offset"] is not None:
            # Moved in by a distance, a solid with square corners is what a cube can be moved about in.
            cube = manifold3d.Manifold.cube((2 * MOVED,) * 3, True)
            shrunk = allowed.minkowski_difference(cube)
            off = solid(case["offset"])
            differ = (shrunk - off).volume() + (off - shrunk).volume()
            assert differ < OUTSIDE, f"space {spaces}: offset differs by {differ} m3"
            offsets += 1
        # The judge must be able to say no.
        assert (allowed.translate((1e-3, 0, 0)) - allowed).volume() > OUTSIDE
        spaces += 1
    assert count > spaces > 0 and boxes > 0 and offsets > 0, "no case was read"
    print(
        f"check_fitted: {count} bodies in {spaces} spaces, most outside {worst:.1e} m3; "
        f"{boxes} largest boxes, at most {loosest:.1%} under the true one; {offsets} offsets"
    )


if __name__ == "__main__":
    main()
