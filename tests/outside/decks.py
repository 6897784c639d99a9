"""Decks of `shell.inp` for ccx: read, rewritten so that its shells are right, and their stresses.

ccx makes a layer of solid of a shell, and a rigid knot of every node where shells meet or are held.
The sheet cannot thin there, which Poisson's ratio wants it to: as written the shells are too stiff.
With the same constants in the plane of each flat and none across it they can bend as plates do.
"""

import re

import numpy as np

# Integration points of a wedge: three layers of three, at these shares of half the thickness.
LAYER = 0.6**0.5


class Flat:
    """One sheet of a deck: a set of triangles, corners counted from 0."""

    def __init__(self, name):
        self.name = name
        self.first, self.triangles = None, []
        self.thickness = None


class Deck:
    def __init__(self, text):
        self.text = text
        self.nodes, self.flats = {}, {}
        keyword, flat = "", None
        for line in text.splitlines():
            if line.startswith("**"):
                continue
            if line.startswith("*"):
                keyword = line.split(",")[0].strip()
                name = re.search(r"ELSET=([^,\s]+)", line)
                of_shells = "TYPE=S6" in line or keyword == "*SHELL SECTION"
                flat = self.flats.setdefault(name[1], Flat(name[1])) if of_shells else None
                continue
            words = line.split(",")
            if keyword == "*NODE":
                self.nodes[int(words[0])] = np.array([float(w) for w in words[1:4]])
            elif keyword == "*ELEMENT" and flat:
                flat.first = flat.first or int(words[0])
                flat.triangles.append([int(w) - 1 for w in words[1:4]])
            elif keyword == "*SHELL SECTION":
                flat.thickness = float(words[0])

    def normal(self, flat):
        a, b, c = (self.nodes[n + 1] for n in flat.triangles[0])
        normal = np.cross(b - a, c - a)
        return normal / np.linalg.norm(normal)

    def on_lines(self, flat):
        """Nodes of a flat where it ends, or where another meets it."""
        count = {}
        for triangle in flat.triangles:
            for a, b in zip(triangle, triangle[1:] + triangle[:1]):
                side = (min(a, b), max(a, b))
                count[side] = count.get(side, 0) + 1
        ends = {n for side, times in count.items() if times == 1 for n in side}
        others = {n for o in self.flats.values() if o is not flat for t in o.triangles for n in t}
        return ends | (others & {n for t in flat.triangles for n in t})


def uncoupled(deck, first=0.25):
    """The deck with no coupling through the thickness, a first load increment, and stresses printed."""
    lines, out = deck.text.splitlines(), []
    at = 0
    while at < len(lines):
        line = lines[at]
        if line == "*ELASTIC":
            modulus, poisson = (float(w) for w in lines[at + 1].split(","))
            shear = modulus / (2 * (1 + poisson))
            out.append("*ELASTIC, TYPE=ENGINEERING CONSTANTS")
            out.append(",".join(f"{v:.11e}" for v in [*[modulus] * 3, poisson, 0.0, 0.0, shear, shear]) + ",")
            out.append(f"{shear:.11e}")
            at += 2
            continue
        if line.startswith("*SHELL SECTION"):
            flat = deck.flats[re.search(r"ELSET=([^,\s]+)", line)[1]]
            a, b, _ = (deck.nodes[n + 1] for n in flat.triangles[0])
            x = (b - a) / np.linalg.norm(b - a)
            y = np.cross(deck.normal(flat), x)
            out.append(f"*ORIENTATION, NAME=O-{flat.name}, SYSTEM=RECTANGULAR")
            out.append(",".join(f"{v:.11e}" for v in [*x, *y]))
            line += f", ORIENTATION=O-{flat.name}"
        elif line == "0.25, 1.":
            line = f"{first}, 1."
        elif line.startswith("*EL FILE"):
            sets = "\n".join(f"{name}," for name in deck.flats)
            out.insert(out.index(next(o for o in out if o.startswith("*STEP"))), f"*ELSET, ELSET=SHEETS\n{sets}")
            out.append("*EL PRINT, ELSET=SHEETS, GLOBAL=YES, FREQUENCY=1000")
            out.append("S")
            at += 2
            continue
        out.append(line)
        at += 1
    return "\n".join(out) + "\n"


def surface_stresses(deck, flat, stress):
    """By node of a flat the stress on its worse face as `deck_answer` has it: von Mises' or the largest
    principal one, whichever is more, of tensors evened out over the flat's triangles."""
    sums, areas = {}, {}
    for number, triangle in enumerate(flat.triangles):
        points = np.array(stress[flat.first + number])
        assert points.shape == (9, 6)
        low, high = points[:3], points[6:]
        middle, slope = (low + high) / 2, (high - low) / (2 * LAYER)
        a, b, c = (deck.nodes[n + 1] for n in triangle)
        area = np.linalg.norm(np.cross(b - a, c - a)) / 2
        for face, values in enumerate((middle - slope, middle + slope)):
            # Straight from the points, two thirds of the way to the corners, out to these.
            mean = values.mean(axis=0)
            for node, value in zip(triangle, mean + 2 * (values - mean)):
                key = (node, face)
                sums[key] = sums.get(key, 0) + area * value
                areas[key] = areas.get(key, 0) + area
    worst = {}
    for (node, face), total in sums.items():
        xx, yy, zz, xy, xz, yz = total / areas[node, face]
        tensor = np.array([[xx, xy, xz], [xy, yy, yz], [xz, yz, zz]])
        deviator = tensor - np.trace(tensor) / 3 * np.eye(3)
        mises = (1.5 * (deviator * deviator).sum()) ** 0.5
        worst[node] = max(worst.get(node, 0), mises, abs(np.linalg.eigvalsh(tensor)).max())
    return worst
