"""Tanks of `tank_cases` for the general finite-element program ccx: meshes, runs, readings.

The shells are eight-node quadrilaterals with reduced integration (S8R) on a structured grid. ccx
makes solids of them and a rigid knot of every node on a fold, which is stiff to the first order
in the size of elements: `limit` takes three sizes to zero.
"""

import math
import os
import re
import subprocess
import tempfile
import time
from pathlib import Path

WEIGHT = 9810.0
# How many elements a moment's neighbourhood reaches from its line, and to each side of its place.
DEEP, ASIDE = 3, 2


class Model:
    """One tank on a grid of squares of `size`, which must divide all its lengths."""

    def __init__(self, tank, size, half=False):
        self.tank, self.size = tank, size
        self.nodes, self.places = {}, []
        self.elements, self.flats, self.pressures = [], [], []
        # Of a tank that is its own mirror image along y only the half at y = 0 is meshed.
        self.middle = max(y for _, y in tank["plan"]) / 2 if half else None
        plan, height = tank["plan"], tank["height"]
        for side, (a, b) in enumerate(zip(plan, plan[1:] + plan[:1])):
            self.upright(f"wall-{side}", a, b, True)
        for number, (a, b) in enumerate(tank["baffles"]):
            self.upright(f"baffle-{number}", a, b, False)
        (x0, y0), (x1, y1) = map(min, zip(*plan)), map(max, zip(*plan))
        if tank["floor"]:
            assert len(plan) == 4
            self.flat("floor", (x0, y0, 0), (0, 1, 0), (1, 0, 0), y1 - y0, x1 - x0, True)
        if tank["lid"]:
            self.flat("lid", (x0, y0, height), (1, 0, 0), (0, 1, 0), x1 - x0, y1 - y0, False)

    def upright(self, name, a, b, wet):
        length = math.dist(a, b)
        way = ((b[0] - a[0]) / length, (b[1] - a[1]) / length, 0)
        self.flat(name, (*a, 0), way, (0, 0, 1), length, self.tank["height"], wet)

    def flat(self, name, origin, u, v, length, width, wet):
        """Squares from `origin` along u and v; the normal u x v points to the dry side."""
        m, n = (round(x / self.size) for x in (length, width))
        assert abs(m * self.size - length) < 1e-9 and abs(n * self.size - width) < 1e-9
        for i in range(m):
            for j in range(n):
                at = lambda s, t: tuple(o + self.size * ((i + s) * a + (j + t) * b) for o, a, b in zip(origin, u, v))
                centre = at(0.5, 0.5)
                if self.middle is not None and centre[1] > self.middle:
                    continue
                corners = [(0, 0), (1, 0), (1, 1), (0, 1), (0.5, 0), (1, 0.5), (0.5, 1), (0, 0.5)]
                self.elements.append([self.node(at(*c)) for c in corners])
                self.flats.append(name)
                self.pressures.append(WEIGHT * (self.tank["height"] - centre[2]) if wet else 0.0)

    def node(self, place):
        key = tuple(round(2 * x / self.size) for x in place)
        if key not in self.nodes:
            self.nodes[key] = len(self.places)
            self.places.append(place)
        return self.nodes[key]

    def holds(self):
        """Lines of *BOUNDARY."""
        tank, out = self.tank, []
        plan = tank["plan"]
        for number, (x, y, z) in enumerate(self.places, 1):
            if self.middle is not None and abs(y - self.middle) < 1e-9:
                out += [f"{number},2,2", f"{number},4,4", f"{number},6,6"]
            if abs(z) > 1e-9:
                continue
            if not tank["floor"]:
                out.append(f"{number},1,6")
                continue
            sides = zip(plan, plan[1:] + plan[:1])
            if any(math.dist(a, (x, y)) + math.dist((x, y), b) < math.dist(a, b) + 1e-9 for a, b in sides):
                out.append(f"{number},3,3")
            if math.dist(plan[0], (x, y)) < 1e-9:
                out.append(f"{number},1,1")
            if self.middle is None and min(math.dist(p, (x, y)) for p in plan[:2]) < 1e-9:
                out.append(f"{number},2,2")
        return out

    def near(self, moment):
        """Elements by which a moment is told."""
        place, across = moment["place"], moment["across"]
        out = []
        for element, flat in enumerate(self.flats):
            if flat != moment["flat"]:
                continue
            corners = [self.places[n] for n in self.elements[element][:4]]
            way = [sum(c[k] for c in corners) / 4 - place[k] for k in range(3)]
            deep = sum(w * a for w, a in zip(way, across))
            aside = math.sqrt(max(sum(w * w for w in way) - deep * deep, 0))
            if 0 < deep < DEEP * self.size and aside < ASIDE * self.size:
                out.append(element)
        return out

    def deck(self, large):
        tank = self.tank
        near = sorted({e + 1 for m in tank["moments"] for e in self.near(m)})
        lines = ["*NODE"]
        lines += [f"{i},{x:.9g},{y:.9g},{z:.9g}" for i, (x, y, z) in enumerate(self.places, 1)]
        lines.append("*ELEMENT,TYPE=S8R,ELSET=ALL")
        lines += [",".join(str(n) for n in [i, *(n + 1 for n in e)]) for i, e in enumerate(self.elements, 1)]
        lines.append("*ELSET,ELSET=NEAR")
        lines += [f"{e}," for e in near]
        lines += ["*MATERIAL,NAME=SHEET", "*ELASTIC", f"{tank['modulus']:.9g},{tank['poisson']:.9g}"]
        lines += ["*SHELL SECTION,ELSET=ALL,MATERIAL=SHEET", f"{tank['thickness']:.9g}"]
        lines += ["*BOUNDARY", *self.holds()]
        lines.append("*STEP,NLGEOM,INC=200" if large else "*STEP")
        lines += ["*STATIC", "0.25,1." if large else ""][: 2 if large else 1]
        lines.append("*DLOAD")
        lines += [f"{i},P,{p:.9g}" for i, p in enumerate(self.pressures, 1) if p]
        lines += ["*NODE FILE,OUTPUT=2D,FREQUENCY=1000", "U"]
        lines += ["*EL PRINT,ELSET=NEAR,GLOBAL=YES,FREQUENCY=1000", "S"]
        return "\n".join(lines + ["*END STEP", ""])


def run(deck, threads=2):
    """Text of the nodal and of the element results, seconds, and peak megabytes."""
    with tempfile.TemporaryDirectory() as work:
        Path(work, "tank.inp").write_text(deck)
        environment = dict(os.environ, OMP_NUM_THREADS=str(threads), CCX_NPROC_STIFFNESS=str(threads))
        begin = time.perf_counter()
        with open(f"{work}/log", "w") as log:
            child = subprocess.Popen(["ccx", "-i", "tank"], cwd=work, env=environment, stdout=log, stderr=log)
            _, status, usage = os.wait4(child.pid, 0)
        seconds = time.perf_counter() - begin
        log = Path(work, "log").read_text()
        if status or "*ERROR" in log or "Job finished" not in log:
            raise RuntimeError("ccx did not finish:\n" + log[-2000:])
        return Path(work, "tank.frd").read_text(), Path(work, "tank.dat").read_text(), seconds, usage.ru_maxrss / 1024


def displacements(frd):
    """By node number, of the last step written."""
    block = frd[frd.rindex(" DISP ") :]
    out = {}
    for line in block.splitlines():
        if line.startswith(" -1"):
            out[int(line[3:13])] = [float(line[13 + 12 * k : 25 + 12 * k]) for k in range(3)]
        elif line.startswith(" -3"):
            break
    return out


def stresses(dat):
    """By element, the six components at its eight points, of the last step written."""
    out = {}
    for line in dat[dat.rindex("stresses") :].splitlines()[1:]:
        words = line.split()
        if len(words) == 8:
            out.setdefault(int(words[0]), []).append([float(w) for w in words[2:]])
    return out


def readings(model, frd, dat, large):
    """Displacements and moments in the order in which the tank asks for them."""
    moved, stress = displacements(frd), stresses(dat)
    watched = []
    for watch in model.tank["deflections"]:
        node = model.nodes[tuple(round(2 * x / model.size) for x in watch["place"])] + 1
        watched.append(sum(a * b for a, b in zip(watch["direction"], moved[node])))
    return watched, [moment(model, m, stress, moved, large) for m in model.tank["moments"]]


def moment(model, watch, stress, moved, large):
    """At the place itself, by a least-squares polynomial through points near it.

    The points are those of the reduced integration, where stresses of these elements are most
    true; the two of each pair through the thickness give the moment.
    """
    import numpy as np

    rows, values = [], []
    place, across = np.array(watch["place"]), np.array(watch["across"])
    for element in model.near(watch):
        rest = np.array([model.places[n] for n in model.elements[element][:4]])
        now = rest + [moved[n + 1] for n in model.elements[element][:4]] if large else rest
        normal = np.cross(now[2] - now[0], now[3] - now[1])
        # The direction across the line as it has turned with the element.
        u, v = rest[1] - rest[0], rest[3] - rest[0]
        turned = (now[1] + now[2] - now[0] - now[3]) * (across @ u) / (u @ u)
        turned = turned + (now[2] + now[3] - now[0] - now[1]) * (across @ v) / (v @ v)
        turned -= normal * (turned @ normal) / (normal @ normal)
        turned /= np.linalg.norm(turned)
        points = stress[element + 1]
        assert len(points) == 8
        for point in range(4):
            xx, yy, zz, xy, xz, yz = np.subtract(points[point + 4], points[point])
            tensor = np.array([[xx, xy, xz], [xy, yy, yz], [xz, yz, zz]])
            s, t = (0.5 + (2 * (point & 1) - 1) / math.sqrt(12), 0.5 + (point - 1.5 > 0) / math.sqrt(3) - 1 / math.sqrt(12))
            way = (rest[0] + s * u + t * v - place) / model.size
            deep = way @ across
            aside = way @ np.cross(across, np.cross(u, v) / np.linalg.norm(np.cross(u, v)))
            rows.append([deep**a * aside**b for a, b in POWERS])
            values.append((turned @ tensor @ turned) * math.sqrt(3) / 12 * model.tank["thickness"] ** 2)
    return float(np.linalg.lstsq(np.array(rows), np.array(values), rcond=None)[0][0])


POWERS = [(0, 0), (1, 0), (2, 0), (3, 0), (0, 1), (0, 2), (1, 1), (1, 2)]


def limit(sizes, values, powers):
    """Value at size zero of a sum of a constant and the given powers of the size."""
    import numpy as np

    rows = [[1.0, *(s**p for p in powers)] for s in sizes]
    return float(np.linalg.lstsq(np.array(rows), np.array(values), rcond=None)[0][0])


def version():
    """What the program calls itself, or None where it is not installed."""
    try:
        said = subprocess.run(["ccx", "-v"], capture_output=True, text=True, check=False).stdout
    except FileNotFoundError:
        return None
    found = re.search(r"Version (\S+)", said)
    return found and found[1]
