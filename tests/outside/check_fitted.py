"""Nothing fitted into a space leaves it, says a boolean that is not ours.

Judge: manifold3d (its own build of its own boolean, in C++). Input: JSON lines on standard input,
from the example `fitted_solids` of brimful-geom.

Tolerance 1e-9 m3, a cubic millimetre: the judge sets corners of a metre apart by about 1e-10 m, on
faces of up to a square metre. Volumes agree to 1e-9 relative, the project's bound.
"""

import json
import sys

import manifold3d
import numpy as np

OUTSIDE = 1e-9
RELATIVE = 1e-9


def solid(mesh):
    mesh64 = manifold3d.Mesh64(
        np.array(mesh["vertices"], dtype=np.float64), np.array(mesh["triangles"], dtype=np.uint64)
    )
    made = manifold3d.Manifold(mesh64)
    assert made.status() == manifold3d.Error.NoError
    assert abs(made.volume() / mesh["volume"] - 1) < RELATIVE, (made.volume(), mesh["volume"])
    return made


def main():
    spaces = count = 0
    worst = 0.0
    for line in sys.stdin:
        case = json.loads(line)
        space = solid(case["space"])
        for fitted in case["fitted"]:
            outside = (solid(fitted) - space).volume()
            worst = max(worst, outside)
            assert outside < OUTSIDE, f"space {spaces}: {outside} m3 outside"
            count += 1
        # The judge must be able to say no.
        assert (space.translate((1e-3, 0, 0)) - space).volume() > OUTSIDE
        spaces += 1
    assert count > spaces > 0, "no case was read"
    print(f"check_fitted: {count} solids in {spaces} spaces, most outside {worst:.1e} m3")


if __name__ == "__main__":
    main()
