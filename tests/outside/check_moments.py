"""Volumes, centroids and inertia of random polyhedra, whole and below tilted surfaces.

Judges: trimesh (mass properties of closed meshes; D. Eberly, "Polyhedral Mass Properties
(Revisited)") for whole solids, manifold3d for the tilted clip (its own boolean), whose result
trimesh measures. Input: JSON lines on standard input, from the example `random_solids` of
brimful-geom.

Tolerance 1e-9 relative, the project's bound for volumes: both sides work in double precision on
solids of about a metre, and the clip moves vertices by about 1e-16 m.
"""

import json
import sys

import manifold3d
import numpy as np
import trimesh

RELATIVE = 1e-9


def measured(vertices, triangles):
    mesh = trimesh.Trimesh(vertices, triangles, process=False)
    assert mesh.is_watertight
    i = mesh.moment_inertia
    return [mesh.volume, *mesh.center_mass, i[0, 0], i[1, 1], i[2, 2], i[1, 2], i[2, 0], i[0, 1]]


def below(vertices, triangles, normal, offset):
    mesh = manifold3d.Mesh64(np.array(vertices, dtype=np.float64), np.array(triangles, dtype=np.uint64))
    solid = manifold3d.Manifold(mesh)
    assert solid.status() == manifold3d.Error.NoError
    # It keeps the side the normal points to: turn the surface round to keep what is below.
    cut = solid.trim_by_plane([-c for c in normal], -offset).to_mesh64()
    return measured(cut.vert_properties[:, :3], cut.tri_verts)


def main():
    worst, count = 0.0, 0
    for line in sys.stdin:
        case = json.loads(line)
        size = float(np.ptp(np.array(case["vertices"]), axis=0).max())
        for name, judge in (
            ("whole", measured(case["vertices"], case["triangles"])),
            ("below", below(case["vertices"], case["triangles"], case["normal"], case["offset"])),
        ):
            ours = case[name]
            scale = [judge[0]] + [size] * 3 + [judge[0] * size**2] * 6
            error = max(abs(a - b) / s for a, b, s in zip(ours, judge, scale))
            worst = max(worst, error)
            assert error < RELATIVE, f"case {count} {name}: {ours} against {judge}"
        count += 1
    assert count > 0, "no case was read"
    print(f"check_moments: {count} solids whole and clipped, worst relative difference {worst:.1e}")


if __name__ == "__main__":
    main()
