"""Wall time of our shell and of ccx side by side, each by the meshes it needs for 3 %.

    python3 benches/against_ccx.py [TANK_CASES] [--one]

The tank is the closed box with one partition of `tank_cases`, whole for both. Either program runs two
meshes, one half as fine again as the other, and what they say is taken to elements of size zero by
the order that its figures converge with: ours by the second, ccx's by the first, that of its rigid
knots at folds. Timed is the coarsest such pair that has the largest deflection and the largest seam
moment within 3 % of the converged ones, where the next finer pair has too; for small and for large
displacements, with OMP_NUM_THREADS 1 and then 2 (`--one`: only 1). Ours is the whole program: meshing,
solving, reading moments. ccx gets its deck written and its answer read for nothing. The converged
figures are the limits of three finer meshes of ccx, by first and second order.

Needs numpy (tests/outside/setup.sh makes an environment with it) and ccx.
"""

import json
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "tests" / "outside"))
import ccx  # noqa: E402
import numpy as np  # noqa: E402

TANK = "baffle-box"
# Off the converged figures at most.
EQUAL = 0.03
RUNS = 7
FINER = 1.5
OUR_SIZES = [0.15, 0.12, 0.1, 0.08, 0.065, 0.05, 0.04, 0.03]
# Elements of ccx to 0.1 m: of the pairs the coarser, and those that its limit is worked out of.
CCX_PARTS = [1, 2, 3, 4, 5]
CONVERGED = [3, 4, 6]


def ours(program, size, large, threads=1):
    """What it says, its figures, seconds of the whole process, peak megabytes."""
    command = [program, *(["--large"] if large else []), TANK, str(size)]
    begin = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.PIPE, env=dict(os.environ, OMP_NUM_THREADS=str(threads)))
    said = child.stdout.read()
    _, status, usage = os.wait4(child.pid, 0)
    assert status == 0, command
    said = json.loads(said)
    # A parabola through the moments along the line across each seam has that at the seam; a coarse mesh may have
    # too few points for one.
    moments = [float(np.polyfit(*zip(*curve), min(2, len(curve) - 1))[-1]) for curve in said["moments"]]
    return said, [said["deflections"], moments], time.perf_counter() - begin, usage.ru_maxrss / 1024


def theirs(tank, parts, large, threads):
    """The same of ccx, with its nodes."""
    model = ccx.Model(tank, 0.1 / parts)
    frd, dat, seconds, megabytes = ccx.run(model.deck(large), threads)
    return len(model.places), ccx.readings(model, frd, dat, large), seconds, megabytes


def at_zero(sizes, figures, powers):
    """Deflections and moments at size zero."""
    return [[ccx.limit(sizes, column, powers) for column in zip(*kind)] for kind in zip(*figures)]


def first_good_pair(candidates, figures_of, size_of, power, off):
    """The first candidate whose pair of meshes is good, and the next one's too, so that none is chosen for its luck."""
    good = []
    for candidate in candidates:
        pair = [candidate, finer(candidate)]
        found = at_zero([size_of(it) for it in pair], [figures_of(it) for it in pair], [power])
        good.append(off(found) <= EQUAL)
        if good[-2:] == [True, True]:
            return candidates[len(good) - 2]
    raise SystemExit(f"none of {candidates} is good")


def finer(mesh):
    """The finer mesh of a pair: ours by the size of elements, ccx's by their number."""
    return round(mesh * FINER + 1e-9) if isinstance(mesh, int) else mesh / FINER


def side_by_side(program, large, threads):
    tank = ours(program, OUR_SIZES[0], large)[0]["tank"]
    known = {}

    def figures_of(parts):
        known[parts] = known.get(parts) or theirs(tank, parts, large, 2)
        return known[parts][1]

    limits = at_zero([0.1 / n for n in CONVERGED], [figures_of(n) for n in CONVERGED], [1, 2])
    governing = [max(range(len(kind)), key=lambda i: abs(kind[i])) for kind in limits]
    off = lambda found: max(abs(f[g] / l[g] - 1) for f, l, g in zip(found, limits, governing))
    size = first_good_pair(OUR_SIZES, lambda s: ours(program, s, large)[1], float, 2, off)
    parts = first_good_pair(CCX_PARTS, figures_of, lambda n: 0.1 / n, 1, off)

    kind = "large" if large else "small"
    names = [tank["deflections"][governing[0]]["name"], tank["moments"][governing[1]]["name"]]
    print(f"{kind} displacements, converged: {1e3 * limits[0][governing[0]]:.3f} mm ({names[0]}), {limits[1][governing[1]]:.1f} N m/m ({names[1]})")
    for count in threads:
        ours_once = lambda: [ours(program, s, large, count) for s in (size, finer(size))]
        runs = [ours_once() for _ in range(RUNS)]
        our_seconds = statistics.median(sum(run[2] for run in pair) for pair in runs)
        pair = [theirs(tank, n, large, count) for n in (parts, finer(parts))]
        their_seconds = sum(run[2] for run in pair)
        print(
            f"  {count} thread{'s' * (count > 1)}: ours {our_seconds:.3f} s ({runs[0][-1][0]['unknowns']} unknowns, "
            f"{max(run[3] for run in runs[0]):.0f} MB), ccx {their_seconds:.2f} s ({pair[-1][0]} nodes, "
            f"{pair[-1][3]:.0f} MB): {their_seconds / our_seconds:.0f} times faster",
            flush=True,
        )


if __name__ == "__main__":
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    program = words[0] if words else str(ROOT / "target" / "release" / "examples" / "tank_cases")
    print(f"ccx {ccx.version()}, medians of {RUNS} runs of ours against one of ccx")
    for large in (False, True):
        side_by_side(program, large, [1] if "--one" in sys.argv else [1, 2])
