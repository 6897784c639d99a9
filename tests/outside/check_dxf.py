"""Reads every DXF file below a directory with ezdxf (strict mode) and audits it.

    check_dxf.py DIR [expected.json]

Fails on any parse error, any audit error or fix, a missing or unknown unit, an outline that is
not closed, crosses itself or has no area, a shape off the declared layers, or no shape at all.
With an expectations file (name -> unit, closed_area_m2, circles_radius_m) the figures are
compared as well, to 1e-6 relative.
"""

import json
import math
import sys
from pathlib import Path

import ezdxf
from ezdxf import path as dxf_path
from shapely.geometry import Polygon

METRES = {4: 0.001, 1: 0.0254}
UNIT_NAMES = {4: "mm", 1: "inch"}
RELATIVE = 1e-6


def area_with_arcs(corners):
    """Shoelace area plus the circular segments of the bulges."""
    total = 0.0
    for (x1, y1, bulge), (x2, y2, _) in zip(corners, corners[1:] + corners[:1]):
        total += (x1 * y2 - x2 * y1) / 2
        if bulge:
            chord = math.hypot(x2 - x1, y2 - y1)
            angle = 4 * math.atan(bulge)
            radius = chord / (2 * math.sin(angle / 2))
            total += radius * radius * (angle - math.sin(angle)) / 2
    return abs(total)


def check(file):
    faults = []
    drawing = ezdxf.readfile(file)
    audit = drawing.audit()
    faults += [f"audit error: {entry.message}" for entry in audit.errors]
    faults += [f"audit fix: {entry.message}" for entry in audit.fixes]
    unit = drawing.header.get("$INSUNITS")
    if unit not in METRES:
        return faults + [f"unit {unit!r} is neither millimetre nor inch"], {}
    if drawing.header.get("$MEASUREMENT") != {4: 1, 1: 0}[unit]:
        faults.append("$MEASUREMENT contradicts $INSUNITS")
    scale = METRES[unit]
    found = {"unit": UNIT_NAMES[unit], "closed_area_m2": [], "circles_radius_m": []}
    shapes = list(drawing.modelspace())
    if not shapes:
        faults.append("nothing is drawn")
    for shape in shapes:
        if shape.dxf.layer not in drawing.layers:
            faults.append(f"{shape.dxftype()} on undeclared layer {shape.dxf.layer}")
        if shape.dxftype() == "POLYLINE":
            if not shape.is_closed:
                faults.append(f"open outline on {shape.dxf.layer}")
            corners = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in shape.vertices]
            flat = [(p.x, p.y) for p in dxf_path.make_path(shape).flattening(0.01)]
            polygon = Polygon(flat)
            if not polygon.is_valid or polygon.area <= 0:
                faults.append(f"outline on {shape.dxf.layer} crosses itself or has no area")
            found["closed_area_m2"].append(area_with_arcs(corners) * scale**2)
        elif shape.dxftype() == "CIRCLE":
            if not shape.dxf.radius > 0:
                faults.append("circle without radius")
            found["circles_radius_m"].append(shape.dxf.radius * scale)
    return faults, found


def compare(found, expected):
    if found.get("unit") != expected["unit"]:
        yield f"unit {found.get('unit')}, expected {expected['unit']}"
    for key in ("closed_area_m2", "circles_radius_m"):
        have, want = sorted(found.get(key, [])), sorted(expected[key])
        if len(have) != len(want) or any(abs(a - b) > RELATIVE * b for a, b in zip(have, want)):
            yield f"{key}: {have}, expected {want}"


def main():
    files = sorted(Path(sys.argv[1]).rglob("*.dxf"))
    expected = json.loads(Path(sys.argv[2]).read_text()) if len(sys.argv) > 2 else {}
    missing = set(expected) - {file.name for file in files}
    faults = [f"{name}: not there" for name in sorted(missing)]
    if not files:
        faults.append("no DXF file found")
    for file in files:
        problems, found = check(file)
        if file.name in expected:
            problems += compare(found, expected[file.name])
        faults += [f"{file}: {problem}" for problem in problems]
    print("\n".join(faults) or f"dxf: {len(files)} files read and audited, no error, no fix")
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main())
