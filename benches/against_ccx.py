"""Wall time of our shell and of ccx side by side, each at the mesh it needs for 3 %.

    python3 benches/against_ccx.py [TANK_CASES] [--one]

The tank is the closed box with one partition of `tank_cases`. The coarsest mesh of each program
whose largest deflection is within 3 % of the converged one is timed, for small and for large
displacements, with OMP_NUM_THREADS 1 and then 2 (`--one`: only 1). Ours is the whole program:
meshing the whole tank, solving, reading moments. ccx gets its deck written and only half the
tank, since the other half is its mirror image, and nobody counts the making of its mesh: all of
that is in its favour. The converged deflection is the limit of ccx's own meshes.

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

TANK = "baffle-box"
# Off the converged deflection at most.
EQUAL = 0.03
RUNS = 7
OUR_SIZES = [0.12, 0.1, 0.09, 0.08, 0.07, 0.06, 0.05, 0.04]
# Elements of ccx to 0.1 m, from which its limit and the mesh that it needs are worked out.
COARSE = [2, 3, 4]
WANTED_RATIO = 20


def ours(program, size, large, threads=1):
    """What it says, seconds of the whole process, peak megabytes."""
    command = [program, *(["--large"] if large else []), TANK, str(size)]
    begin = time.perf_counter()
    child = subprocess.Popen(
        command, stdout=subprocess.PIPE, env=dict(os.environ, OMP_NUM_THREADS=str(threads))
    )
    said = child.stdout.read()
    _, status, usage = os.wait4(child.pid, 0)
    assert status == 0, command
    return json.loads(said), time.perf_counter() - begin, usage.ru_maxrss / 1024


def theirs(tank, parts, large, threads):
    model = ccx.Model(tank, 0.1 / parts, half=True)
    frd, dat, seconds, megabytes = ccx.run(model.deck(large), threads)
    return ccx.readings(model, frd, dat, large)[0], seconds, megabytes, len(model.places)


def side_by_side(program, large, threads):
    tank = ours(program, OUR_SIZES[0], large)[0]["tank"]
    coarse = [theirs(tank, parts, large, 2)[0] for parts in COARSE]
    sizes = [0.1 / parts for parts in COARSE]
    limits = [ccx.limit(sizes, column, [1, 2]) for column in zip(*coarse)]
    governing = max(range(len(limits)), key=lambda i: abs(limits[i]))
    off = lambda deflections: abs(deflections[governing] / limits[governing] - 1)

    # Two meshes in a row have to be good, so that none is chosen for its luck.
    good = [off(ours(program, size, large)[0]["deflections"]) <= EQUAL for size in OUR_SIZES]
    size = OUR_SIZES[next(i for i in range(len(good) - 1) if good[i] and good[i + 1])]
    # Its error falls with the first power of the size of elements.
    parts = max(COARSE[-1], int(COARSE[-1] * off(coarse[-1]) / EQUAL))

    kind = "large" if large else "small"
    print(f"{kind} displacements, converged: {1e3 * limits[governing]:.3f} mm ({tank['deflections'][governing]['name']})")
    for count in threads:
        runs = [ours(program, size, large, count) for _ in range(RUNS)]
        our_seconds = statistics.median(run[1] for run in runs)
        said = runs[0][0]
        while True:
            deflections, their_seconds, megabytes, nodes = theirs(tank, parts, large, count)
            if off(deflections) <= EQUAL:
                break
            parts += 1
        ratio = their_seconds / our_seconds
        print(
            f"  {count} thread{'s' * (count > 1)}: ours {our_seconds:.3f} s ({said['unknowns']} unknowns, "
            f"{max(run[2] for run in runs):.0f} MB, off {100 * off(said['deflections']):.1f} %), "
            f"ccx {their_seconds:.1f} s (half tank, {nodes} nodes, {megabytes:.0f} MB, off {100 * off(deflections):.1f} %): "
            f"{ratio:.0f} times faster{'' if ratio >= WANTED_RATIO else f', wanted {WANTED_RATIO}'}",
            flush=True,
        )


if __name__ == "__main__":
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    program = words[0] if words else str(ROOT / "target" / "release" / "examples" / "tank_cases")
    print(f"ccx {ccx.version()}, medians of {RUNS} runs of ours against one of ccx")
    for large in (False, True):
        side_by_side(program, large, [1] if "--one" in sys.argv else [1, 2])
