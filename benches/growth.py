"""How the whole check grows with the tank: wall and processor time and memory against panels and unknowns.

    python3 benches/growth.py

Bays of 400 x 450 x 400 mm in a row, a baffle between each two, from one bay to nine, of 12 mm so that they hold and no change is tried; then the jobs that
have a bound: S1 (camper-bench) 1 s, S2 (under-bed-arch) 2 s, the largest example (frame-rail-sprayer) 8 s, an L
of 2 x 2 m in 4 mm sheet 20 s. Each runs five times with two threads, and the median is printed: nothing else should run
beside it. The exponent is that of time against unknowns between the smallest and the largest row of bays.
"""

import json
import math
import os
import statistics
import subprocess
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BRIMFUL = ROOT / "target" / "release" / "brimful"
RUNS = 5
BAYS = [1, 2, 3, 5, 7, 9]
BAY = 400
START = """[job]
name = "growth"
lengths = "mm"
duty = "{duty}"
[liquid]
kind = "water"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [4000, 2000]
thickness = {thickness}
[body]
"""


def row_of_bays(bays):
    job = START.format(duty="standing", thickness=12) + f"box = [{bays * BAY}, 450, 400]\nthickness = 12\n"
    for number in range(1, bays):
        job += f'[[inner]]\nkind = "baffle"\nacross = "x"\nat = {number * BAY}\n'
    return job


def thin_l():
    plan = "[[0, 0], [2000, 0], [2000, 700], [700, 700], [700, 2000], [0, 2000]]"
    return START.format(duty="standing", thickness=4) + f"plan = {plan}\nheight = 60\nthickness = 4\n"


def run(job):
    """What the check says, and its wall seconds, processor seconds and peak megabytes."""
    begin = time.perf_counter()
    child = subprocess.Popen([BRIMFUL, "check", job, "--json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    said = child.stdout.read()
    _, status, usage = os.wait4(child.pid, 0)
    assert os.waitstatus_to_exitcode(status) in (0, 1), job
    cost = time.perf_counter() - begin, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024
    return json.loads(said), cost


def measured(name, job):
    """Prints the row of a job; gives its panels, unknowns of the finest mesh and median wall seconds."""
    runs = [run(job) for _ in range(RUNS)]
    said = runs[0][0]
    whole = said["strength"]["whole"]
    unknowns = [mesh["unknowns"] for mesh in whole["meshes"]]
    wall, processor = (statistics.median(cost[i] for _, cost in runs) for i in (0, 1))
    megabytes = max(cost[2] for _, cost in runs)
    loads = len(whole["load_cases"])
    columns = f"{len(said['panels']):>7}{loads:>7}{'  '.join(map(str, unknowns)):>24}"
    print(f"{name:<20}{columns}{wall:>9.2f}{processor:>9.2f}{megabytes:>6.0f}")
    return unknowns[-1], wall


def main():
    print(f"{'job':<20}{'panels':>7}{'loads':>7}{'unknowns':>24}{'wall s':>9}{'proc s':>9}{'MB':>6}")
    with tempfile.TemporaryDirectory() as folder:
        def written(name, text):
            path = Path(folder) / f"{name}.job.toml"
            path.write_text(text)
            return path

        rows = [measured(f"{bays} bays", written(f"bays-{bays}", row_of_bays(bays))) for bays in BAYS]
        (fewest, least), (most, longest) = rows[0], rows[-1]
        print(f"time grows with unknowns to the power {math.log(longest / least) / math.log(most / fewest):.2f}")
        for name in ["camper-bench", "under-bed-arch", "frame-rail-sprayer"]:
            measured(name, ROOT / "examples" / f"{name}.job.toml")
        measured("4 mm L, 2 x 2 m", written("thin-l", thin_l()))


if __name__ == "__main__":
    main()
