"""Mesh files written by trimesh are read by us with the same triangles, volume and bounds.

Judge: trimesh, which writes OBJ, STL (text, binary), PLY (text, binary little-endian) and GLB; PLY of
the other byte order is written here from the format's own description (G. Turk, "The PLY Polygon File
Format", 1994) with numpy. Argument: the built example `read_mesh` of brimful-formats.

Tolerance 1e-6 relative: binary STL, PLY and GLB hold single precision (6e-8), a volume three of them.
"""

import json
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np
import trimesh

RELATIVE = 1e-6


def big_endian_ply(mesh):
    head = (
        f"ply\nformat binary_big_endian 1.0\nelement vertex {len(mesh.vertices)}\nproperty double x\n"
        f"property double y\nproperty double z\nelement face {len(mesh.faces)}\n"
        "property list uchar uint vertex_indices\nend_header\n"
    )
    faces = np.zeros(len(mesh.faces), dtype=[("n", "u1"), ("v", ">u4", 3)])
    faces["n"], faces["v"] = 3, mesh.faces
    return head.encode() + mesh.vertices.astype(">f8").tobytes() + faces.tobytes()


def scene(mesh):
    """The mesh twice, under turned, scaled and moved nodes, one within the other."""
    scene = trimesh.Scene()
    turn = trimesh.transformations.rotation_matrix(0.7, [1, 2, 3], [0.1, 0.2, 0.3])
    grow = np.diag([2.0, 2.0, 2.0, 1.0])
    scene.add_geometry(mesh, node_name="a", geom_name="g", transform=turn)
    scene.add_geometry(mesh, node_name="b", geom_name="h", parent_node_name="a", transform=grow)
    return scene


def cases():
    round_ = trimesh.creation.annulus(0.2, 0.5, 0.3, sections=40)
    for name, mesh in (("box", trimesh.creation.box((1.0, 2.0, 3.0))), ("ring", round_), ("ball", trimesh.creation.icosphere(3, 0.4))):
        mesh.apply_translation([0.3, -0.2, 5.0])
        yield f"{name}.obj", mesh, mesh.export(file_type="obj").encode()
        yield f"{name}.stl", mesh, mesh.export(file_type="stl")
        yield f"{name}-text.stl", mesh, mesh.export(file_type="stl_ascii").encode()
        yield f"{name}.ply", mesh, mesh.export(file_type="ply", encoding="binary")
        yield f"{name}-text.ply", mesh, mesh.export(file_type="ply", encoding="ascii")
        yield f"{name}-big.ply", mesh, big_endian_ply(mesh)
        whole = scene(mesh)
        yield f"{name}.glb", whole.to_mesh(), whole.export(file_type="glb")


def main():
    reader, count = sys.argv[1], 0
    with tempfile.TemporaryDirectory() as folder:
        for name, mesh, data in cases():
            path = Path(folder) / name
            path.write_bytes(data if isinstance(data, bytes) else data.encode())
            line = subprocess.run([reader, str(path)], check=True, capture_output=True, text=True).stdout
            ours = json.loads(line)
            low, high = mesh.bounds
            if name.endswith(".glb"):
                # y up in the file becomes z up with us.
                low, high = [low[0], -high[2], low[1]], [high[0], -low[2], high[1]]
            size = float(np.ptp(mesh.bounds, axis=0).max())
            assert ours["triangles"] == len(mesh.faces), (name, ours, len(mesh.faces))
            assert abs(ours["volume"] / mesh.volume - 1) < 10 * RELATIVE, (name, ours["volume"], mesh.volume)
            # Single precision at 5 m from the origin.
            assert np.allclose(ours["bounds"], [low, high], atol=RELATIVE * (size + 5)), (name, ours["bounds"])
            count += 1
        bad = Path(folder) / "bad.ply"
        bad.write_bytes(b"ply\nformat ascii 1.0\nelement vertex 9\nproperty float x\nend_header\n1 2\n")
        assert subprocess.run([reader, str(bad)], capture_output=True).returncode != 0
    print(f"check_meshes: {count} files of trimesh read with the same triangles, volume and bounds")


if __name__ == "__main__":
    main()
