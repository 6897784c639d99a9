"""Checks a build pack's JSON and lists, and works out what the STEP file must hold.

    check_pack.py DIR

The JSON is held to its schema (docs/schema, JSON Schema by jsonschema), and every list to the
strict CSV reader of Python. Each panel's volume is worked out here from its two outlines in the
JSON by the prismatoid formula (V = t/6 (A1 + 4 Am + A2), exact for straight sides), less its
holes, and written to DIR.expected.json for check_step.py.
"""

import csv
import json
import math
import sys
from pathlib import Path

import jsonschema

SCHEMA = Path(__file__).resolve().parents[2] / "docs" / "schema" / "brimful.schema.json"
SECTIONS = "job defaults capacity mass panels seams strength cut weld gauge findings".split()


def area(ring):
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1])) / 2


def volume(panel):
    finished, thickness = panel["finished"], panel["thickness_m"]
    total = 0.0
    for outside, inside in zip(finished["outside_m"], finished["inside_m"], strict=True):
        middle = [[(a + b) / 2 for a, b in zip(p, q)] for p, q in zip(outside, inside, strict=True)]
        total += thickness / 6 * (area(outside) + 4 * area(middle) + area(inside))
    for hole in panel["holes"]:
        if hole["radius_m"] is not None:
            total -= math.pi * hole["radius_m"] ** 2 * thickness
        else:
            total -= abs(area(hole["outline_m"])) * thickness
    return total


def main():
    pack = Path(sys.argv[1])
    plan = json.loads((pack / "build-pack.json").read_text(encoding="utf-8"))
    jsonschema.validate(plan, json.loads(SCHEMA.read_text(encoding="utf-8")))
    assert all(section in plan for section in SECTIONS), sorted(plan)
    for finding in plan["findings"]:
        assert finding["grade"] in ("stop", "mend", "note") and finding["says"], finding

    lists = sorted(pack.rglob("*.csv"))
    assert lists, "the pack has no lists"
    for file in lists:
        with open(file, newline="", encoding="utf-8-sig") as text:
            first = text.readline()
            text.seek(0)
            rows = list(csv.reader(text, delimiter=";" if ";" in first else ",", strict=True))
        assert len(rows) > 1 and len({len(row) for row in rows}) == 1, f"{file}: ragged"

    drawn = {file.stem.split("-")[0] for file in (pack / "panels").glob("*.dxf")}
    assert drawn == {panel["mark"] for panel in plan["panels"]}, drawn

    solids = [{"name": f"{p['mark']} {p['name']}", "volume_m3": volume(p)} for p in plan["panels"]]
    Path(f"{pack}.expected.json").write_text(json.dumps({"solids": solids}), encoding="utf-8")
    print(f"check_pack: {len(solids)} panels, {len(lists)} lists, JSON to its schema")


if __name__ == "__main__":
    main()
