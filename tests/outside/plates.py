"""Bending coefficients of thin rectangular plates by Ritz with Legendre functions.

Prints the rows of crates/brimful-mech/src/plate/data/plates.csv, or compares that file with
what is computed here (`--check FILE`), or shows what a support that stops short does (`--feet`).
Width 1 along x, height b along y; load 1, or falling from 1 at
y = 0 to 0 at y = b. Deflections in units of q s^4 / D, moments in q s^2, s the shorter side; of
plates with a free top s is the width, in which the values change little from row to row.
"""
import csv
import io
import sys

import numpy as np
from numpy.polynomial import legendre as L

# Where a clamped side ends free, moments have no bound, and those nearby swing about their limit with
# the number of functions: the mean of two is within 0.3 % of more of them.
FUNCTIONS = {"SSSS": (18,), "CCCC": (18,), "SSSF": (18,), "CCCF": (24, 30)}
STIFF = 1e8

def functions(low, high, n):
    """Legendre functions on [-1, 1] times the factors that hold the edges; low/high in S C F."""
    power = {"S": 1, "C": 2, "F": 0}
    factor = np.array([1.0])
    for _ in range(power[low]): factor = L.legmul(factor, [1, 1])
    for _ in range(power[high]): factor = L.legmul(factor, [1, -1])
    out = []
    for k in range(n):
        c = np.zeros(k + 1); c[k] = 1
        out.append(L.legmul(factor, c))
    return out

def at(fs, x, d, scale):
    return np.array([L.legval(x, L.legder(f, d) if d else f) for f in fs]) * scale ** d

def solve(edges, ratio, load, nu, foot=None, n=18):
    """edges: x=0, x=a, y=0, y=b; foot: where a line at half the width is held, as shares of b."""
    a, b = 1.0, ratio
    # Plate and load are their own mirror images along x: every other function does nothing.
    X, Y = functions(*edges[:2], n)[::2], functions(*edges[2:], n)
    g, w = L.leggauss(60)
    x = [at(X, g, d, 2 / a) for d in range(3)]
    y = [at(Y, g, d, 2 / b) for d in range(3)]
    wx, wy = w * a / 2, w * b / 2
    I = lambda p, q, w: np.einsum("ig,jg,g->ij", p, q, w)
    K = lambda A, B: np.einsum("ij,kl->ikjl", A, B)
    k = (K(I(x[2], x[2], wx), I(y[0], y[0], wy)) + K(I(x[0], x[0], wx), I(y[2], y[2], wy))
         + nu * (K(I(x[2], x[0], wx), I(y[0], y[2], wy)) + K(I(x[0], x[2], wx), I(y[2], y[0], wy)))
         + 2 * (1 - nu) * K(I(x[1], x[1], wx), I(y[1], y[1], wy)))
    if foot:
        # Held by a spring so stiff that the line moves by less than a thousandth of the rest.
        low, high = 2 * foot[0] - 1, 2 * foot[1] - 1
        line = at(Y, (low + high) / 2 + (high - low) / 2 * g, 0, 2 / b)
        middle = at(X, np.array([0.0]), 0, 2 / a)[:, 0]
        k = k + STIFF * K(np.outer(middle, middle), I(line, line, w * (high - low) / 2 * b / 2))
    q = np.ones_like(g) if load == "uniform" else (1 - g) / 2
    f = np.einsum("i,k->ik", x[0] @ wx, y[0] @ (wy * q))
    n, m = len(X), len(Y)
    k = k.reshape(n * m, n * m)
    s = 1 / np.sqrt(np.diag(k))
    c = np.linalg.solve(k * s[:, None] * s[None, :], f.reshape(-1) * s) * s
    c = c.reshape(n, m)
    px, py = np.linspace(-1, 1, 201), np.linspace(-1, 1, 401)
    vx = [at(X, px, d, 2 / a) for d in range(3)]
    vy = [at(Y, py, d, 2 / b) for d in range(3)]
    field = lambda dx, dy: np.einsum("ik,ig,kh->gh", c, vx[dx], vy[dy])
    W, kx, ky = field(0, 0), -field(2, 0), -field(0, 2)
    return W, kx + nu * ky, ky + nu * kx

def row(edges, ratio, load, nu):
    return np.mean([largest(edges, ratio, load, nu, n) for n in FUNCTIONS[edges]], axis=0)

def largest(edges, ratio, load, nu, n):
    W, Mx, My = solve(edges, ratio, load, nu, n=n)
    free = edges[3] == "F"
    s = 1.0 if free else min(1.0, ratio)
    W, Mx, My = W / s ** 4, Mx / s ** 2, My / s ** 2
    which = np.maximum(Mx, My)
    # Near the sides there are no large moments of this sign, but for the swings by a corner.
    which[:40] = which[-40:] = 0
    i = np.unravel_index(np.argmax(which), which.shape)
    big, small = max(Mx[i], My[i]), min(Mx[i], My[i])
    upto = int(0.9 * 400) + 1 if free else 401
    edge = 0.0
    if "C" in edges:
        edge = max(-Mx[0, :upto].min(), -My[:, 0].min(), 0 if free else -My[:, -1].min())
    return W.max(), big, small, edge

PUBLISHED = {
    "SSSS": ("seen", "Roark's Formulas for Stress and Strain 7th ed. Table 11.4 case 1a to its digits; further digits by Ritz", (1, 1.2, 1.4, 1.6, 1.8, 2, 3, 4, 5)),
    "CCCC": ("from memory", "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, clamped plate under uniform load, and Roark 7th ed. case 8a, to their digits; further digits by Ritz", (1, 1.2, 1.4, 1.6, 1.8, 2)),
}
STRIP = {
    ("SSSS", "uniform", "inf"): (5 / 384, 1 / 8, 0.3 / 8, 0.0),
    ("CCCC", "uniform", "inf"): (1 / 384, 1 / 24, 0.3 / 24, 1 / 12),
    ("SSSS", "hydrostatic", "0"): (0.0065222, 1 / (9 * 3 ** 0.5), 0.3 / (9 * 3 ** 0.5), 0.0),
    ("CCCC", "hydrostatic", "0"): (0.0013087, 0.0214409, 0.3 * 0.0214409, 1 / 20),
}
# After the point; a low plate moves by few parts of q a^4 / D, a its width.
DIGITS = {"SSSS": 6, "CCCC": 6, "SSSF": 8, "CCCF": 8}
NAMES = {"SSSS": "hinged", "CCCC": "clamped", "SSSF": "hinged free top", "CCCF": "clamped free top"}
RITZ = "Ritz with 18 Legendre functions a way, the largest value of each anywhere on the plate (tests/outside/plates.py)"

# Close where the place of the largest value changes.
FREE_TOP = {
    ("SSSF", "uniform"): (1 / 3, .4, .5, .6, .75, .9, 1, 1.25, 1.5, 2, 2.5, 3),
    ("SSSF", "hydrostatic"): (1 / 3, .4, .5, .6, .75, .9, .95, 1, 1.1, 1.15, 1.2, 1.25, 1.3, 1.35, 1.4, 1.5, 2, 2.5, 3),
    ("CCCF", "uniform"): (1 / 3, .37, .4, .45, .5, .55, .6, .7, .75, .9, 1, 1.25, 1.5, 2, 2.5, 3),
    ("CCCF", "hydrostatic"): (1 / 3, .37, .4, .45, .5, .55, .6, .65, .7, .72, .75, .8, .82, .85, .9, 1, 1.25, 1.5, 2, 2.5, 3),
}

def rows():
    for edges in ("SSSS", "CCCC"):
        flag, source, published = PUBLISHED[edges]
        for r in (1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2, 2.5, 3, 4, 5):
            known = r in published
            yield edges, "uniform", 0.3, f"{r}", row(edges, r, "uniform", 0.3), flag if known else "computed", source if known else RITZ
        yield edges, "uniform", 0.3, "inf", STRIP[edges, "uniform", "inf"], flag, source
        yield edges, "hydrostatic", 0.3, "0", STRIP[edges, "hydrostatic", "0"], "computed", "A strip that spans upward: beam statics"
        for r in (.2, .25, 1 / 3, .4, .5, .6, .7, .8, .9, 1, 1.05, 1.1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4, 5, 10):
            yield edges, "hydrostatic", 0.3, f"{r:.6g}", row(edges, r, "hydrostatic", 0.3), "computed", RITZ
        yield edges, "hydrostatic", 0.3, "inf", STRIP[edges, "uniform", "inf"], "computed", "A strip across the foot, where the pressure is as good as uniform"
    for edges in ("SSSF", "CCCF"):
        for load in ("uniform", "hydrostatic"):
            source = RITZ if edges == "SSSF" else RITZ.replace("18 Legendre functions a way", "24 and 30 Legendre functions a way, the mean of both")
            for nu in (0.3, 0.375, 0.45):
                for r in FREE_TOP[edges, load]:
                    yield edges, load, nu, f"{r:.6g}", row(edges, r, load, nu), "computed", source

def short_feet():
    """Largest deflection of a wall of two bays whose middle support stops short at its ends, over
    that with a whole support: bay over height, foot, ratio; the rule of the quick check for baffles."""
    for edges in ("SSSS", "CCCC"):
        for bay in (0.6, 1.0, 1.5):
            whole = solve(edges, 1 / (2 * bay), "hydrostatic", 0.42, (0, 1))[0].max()
            for foot in ((0.15, 0.85), (0.0, 0.7), (0.3, 1.0), (0.25, 0.75)):
                short = solve(edges, 1 / (2 * bay), "hydrostatic", 0.42, foot)[0].max()
                yield edges, bay, foot, short / whole

def table():
    lines = ["edges,load,poisson,height_over_width,deflection,field_moment,field_moment_across,edge_moment,flag,source"]
    for edges, load, nu, ratio, values, flag, source in rows():
        text = io.StringIO()
        cells = [NAMES[edges], load, str(nu), ratio, *(f"{v:.{DIGITS[edges]}f}" for v in values), flag, source]
        csv.writer(text, lineterminator="").writerow(cells)
        lines.append(text.getvalue())
    return lines

def differences(path):
    """Rows of the file that are further than the last printed digit from what is computed here."""
    found = open(path).read().splitlines()
    wanted = table()
    bad = [] if len(found) == len(wanted) else [f"{len(found)} rows, {len(wanted)} computed"]
    for one, other in zip(csv.reader(found[1:]), csv.reader(wanted[1:])):
        same = one[:4] == other[:4] and one[8:] == other[8:]
        last = max(10.0 ** -len(cell.partition(".")[2]) for cell in other[4:8])
        near = all(abs(float(a) - float(b)) <= 1.5 * last for a, b in zip(one[4:8], other[4:8]))
        if not (same and near):
            bad.append(f"{one} is not {other}")
    return bad

if __name__ == "__main__":
    if len(sys.argv) == 3 and sys.argv[1] == "--check":
        bad = differences(sys.argv[2])
        print("\n".join(bad) or "plate rows agree")
        sys.exit(1 if bad else 0)
    if sys.argv[1:] == ["--feet"]:
        for edges, bay, foot, ratio in short_feet():
            print(f"{edges} bay {bay} foot {foot}: {ratio:.4f}")
        sys.exit(0)
    print("\n".join(table()))
