"""What holds the tank of a build pack: angle blocks, clamps, and what blocks are cut from.

Judge: `numpy`, on the outlines of the panels as `build-pack.json` has them. Argument: the folder of a pack.

1. The angle of the block at every seam is that between the two panels, worked out here from where their corners lie: no
   normal and no angle of ours is used. A panel that stands on another has its sharper side measured.
2. Its outline has two legs at that angle, of its length and with its nip.
3. Clamps are as many as the rules of practice ask for: one at each corner, two a panel between, and no gap over 300 mm, or
   400 mm on sheet of 10 mm and more.
4. As many blocks of a kind are made as are in use at once, from the step that sets them to that after which they come off.
5. Their blanks lie on the offcut that is named, and touch no panel and no other blank on that sheet.
"""

import json
import math
import sys

import numpy as np

# A block serves every angle this near to its own: half of what a bevel gauge is read to, degrees.
SAME_ANGLE = 0.25
# Lengths in the file are sums of a few rounded ones, m.
ROUNDING = 1e-6
# Clamps no further apart than this on sheet from the thickness on, m.
THICK, APART_THICK, APART_THIN = 0.010, 0.400, 0.300


def world(panel):
    """Corners of the inside face, in the tank's axes."""
    frame = {key: np.array(panel["frame"][key]) for key in ("x", "y", "z")}
    origin = np.array(panel["frame"]["origin_m"])
    corners = np.array(panel["finished"]["inside_m"][0])
    return origin + corners[:, :1] * frame["x"] + corners[:, 1:] * frame["y"] - panel["thickness_m"] * frame["z"]


def away(corners, start, along):
    """Unit way from a line into a panel, square to the line and in the panel, by the plane that its corners lie in."""
    middle = corners.mean(axis=0)
    normal = np.linalg.svd(corners - middle)[2][2]
    across = np.cross(normal, along)
    across /= np.linalg.norm(across)
    # The side on which more of the panel lies.
    sides = (corners - start) @ across
    return across if sides.max() > -sides.min() else -across


def angle_between(a, b):
    return math.degrees(math.acos(np.clip(a @ b, -1.0, 1.0)))


def dihedral(seam, panels):
    start, end = (np.array(p) for p in seam["inner_line_m"])
    along = (end - start) / np.linalg.norm(end - start)
    one, other = (away(world(panels[mark]), start, along) for mark in seam["panels"])
    angle = angle_between(one, other)
    return min(angle, 180.0 - angle) if seam["joint"] in ("tee", "slot through") else angle


def check_outline(block):
    points = np.array(block["outline_m"])
    first, second = points[1] - points[0], points[-2] - points[-1]
    units = first / np.linalg.norm(first), second / np.linalg.norm(second)
    assert abs(angle_between(*units) - math.degrees(block["angle_rad"])) < 1e-6, block["mark"]
    for leg in (first, second):
        assert abs(np.linalg.norm(leg) - (block["leg_m"] - block["nip_m"])) < ROUNDING, block["mark"]


def corners_of(place):
    low = np.array(place["at_m"])
    return low, low + np.array(place["size_m"])


def overlap(a, b):
    (low, high), (other_low, other_high) = corners_of(a), corners_of(b)
    return bool(np.all(low + ROUNDING < other_high) and np.all(other_low + ROUNDING < high))


def within(a, b):
    (low, high), (other_low, other_high) = corners_of(a), corners_of(b)
    return bool(np.all(low > other_low - ROUNDING) and np.all(high < other_high + ROUNDING))


def check_stock(blocks, groups):
    taken = {}
    for block in blocks:
        count = block["from_board"]
        for source in block["from"]:
            sheet = (source["group"], source["layout"])
            layout = groups[sheet[0]]["layouts"][sheet[1]]
            for blank in source["blanks"]:
                assert within(blank, source["offcut"]), (block["mark"], blank)
                others = [part["place"] for part in layout["parts"]] + taken.setdefault(sheet, [])
                assert not any(overlap(blank, it) for it in others), (block["mark"], blank)
                taken[sheet].append(blank)
                count += 1
        assert count == block["count"], block["mark"]


def main():
    with open(f"{sys.argv[1]}/build-pack.json", encoding="utf-8") as file:
        plan = json.load(file)
    panels = {panel["mark"]: panel for panel in plan["panels"]}
    seams = {seam["mark"]: seam for seam in plan["seams"]}
    fixtures = plan["weld"]["fixtures"]
    blocks = {block["mark"]: block for block in fixtures["blocks"]}
    steps = len(plan["weld"]["steps"])
    in_use = {mark: [0] * steps for mark in blocks}
    worst = checked = 0
    for holding in fixtures["holdings"]:
        between = 0
        for hold in holding["seams"]:
            seam = seams[hold["seam"]]
            thickness = min(panels[mark]["thickness_m"] for mark in seam["panels"])
            apart = APART_THICK if thickness >= THICK - ROUNDING else APART_THIN
            assert hold["backing_m"] / (hold["clamps"] + 1) <= apart + ROUNDING, hold
            between += hold["clamps"]
            if hold["block"] is None:
                continue
            block = blocks[hold["block"]]
            off = abs(dihedral(seam, panels) - math.degrees(block["angle_rad"]))
            assert off < SAME_ANGLE, (hold["seam"], off)
            worst, checked = max(worst, off), checked + 1
            last = hold["release"]["after_step"]
            for step in range(holding["step"], steps if last is None else last + 1):
                in_use[hold["block"]][step] += hold["blocks"]
        if holding["seams"]:
            assert between >= 2 and holding["corner_clamps"] >= 2, holding
    for mark, block in blocks.items():
        check_outline(block)
        assert max(in_use[mark]) == block["count"], (mark, max(in_use[mark]))
    check_stock(fixtures["blocks"], plan["cut"]["groups"])
    print(f"fixtures: {checked} seams with blocks, worst angle off by {worst:.2g} deg; {len(fixtures['holdings'])} holdings")


main()
