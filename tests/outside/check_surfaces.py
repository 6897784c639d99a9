"""Surfaces written by trimesh (a general mesh library) in every format and coding that is read: as many
triangles, and the same volume. Volumes agree to what single precision leaves, 1e-5 relative.

usage: check_surfaces.py READ_SURFACE
"""

import base64
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy
import trimesh
from trimesh.exchange import gltf, ply, stl


def solids():
    ball = trimesh.creation.icosphere(subdivisions=3, radius=0.7)
    tube = trimesh.creation.annulus(r_min=0.2, r_max=0.5, height=1.3)
    tube.apply_transform(trimesh.transformations.rotation_matrix(0.7, [1, 2, 3], [0.1, 0.2, 0]))
    return {"ball": ball, "tube": tube}


def scene(mesh):
    """The mesh under a node that turns, stretches and shifts it, and what comes of it."""
    place = trimesh.transformations.rotation_matrix(0.4, [0, 1, 1])
    place[:3, :3] *= 2.0
    place[:3, 3] = [3, -1, 2]
    whole = trimesh.Scene()
    whole.add_geometry(mesh, transform=place)
    return whole, abs(numpy.linalg.det(place[:3, :3])) * mesh.volume


def big_endian(mesh):
    head = (
        f"ply\nformat binary_big_endian 1.0\ncomment by hand\nelement vertex {len(mesh.vertices)}\n"
        "property double x\nproperty double y\nproperty double z\nproperty uchar red\n"
        f"element face {len(mesh.faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    rows = numpy.zeros(len(mesh.vertices), dtype=[("place", ">f8", 3), ("red", "u1")])
    rows["place"] = mesh.vertices
    faces = numpy.zeros(len(mesh.faces), dtype=[("count", "u1"), ("corners", ">i4", 3)])
    faces["count"], faces["corners"] = 3, mesh.faces
    return head.encode() + rows.tobytes() + faces.tobytes()


def inside_text(files):
    """A text glTF with its buffers in base 64."""
    document = json.loads(files["model.gltf"])
    for buffer in document["buffers"]:
        data = base64.b64encode(files[buffer["uri"]]).decode()
        buffer["uri"] = f"data:application/octet-stream;base64,{data}"
    return json.dumps(document).encode()


def written(mesh):
    whole, volume = scene(mesh)
    own = mesh.volume
    return [
        ("obj", mesh.export(file_type="obj").encode(), own),
        ("ply", ply.export_ply(mesh, encoding="binary"), own),
        ("ply", ply.export_ply(mesh, encoding="ascii"), own),
        ("ply", big_endian(mesh), own),
        ("stl", stl.export_stl(mesh), own),
        ("stl", stl.export_stl_ascii(mesh).encode(), own),
        ("glb", gltf.export_glb(whole), volume),
        ("gltf", inside_text(gltf.export_gltf(whole)), volume),
    ]


def main(reader):
    count = 0
    with tempfile.TemporaryDirectory() as folder:
        for name, mesh in solids().items():
            for number, (ending, data, volume) in enumerate(written(mesh)):
                path = Path(folder) / f"{name}-{number}.{ending}"
                path.write_bytes(data)
                line = subprocess.run([reader, path], capture_output=True, text=True, check=True).stdout
                _, triangles, found = line.split()
                assert int(triangles) == len(mesh.faces), (path.name, line, len(mesh.faces))
                assert abs(float(found) / volume - 1) < 1e-5, (path.name, line, volume)
                count += 1
    print(f"surfaces: {count} files written by trimesh read, triangles and volumes right")


main(sys.argv[1])
