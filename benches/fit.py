"""What fit costs: the examples with a space, a scan of 200,000 triangles, and growth with obstacles and
with facets of the space.

    python3 benches/fit.py

The median of five runs and the peak memory of the command as a user runs it. Bounds: 1 s on the examples of the
scenario briefs, 10 s and 1 GB on the scan; over a bound it ends with 1.
"""

import math
import subprocess
import sys
import tempfile
from pathlib import Path

import measure

EXAMPLES = ["camper-bench", "under-bed-arch", "bilge-wedge", "frame-rail-sprayer", "rain-alcove"]
TRIANGLES = 200_000
HEAD = """[job]
lengths = "mm"
[liquid]
kind = "water"
[[stock.sheet]]
size = [3000, 1500]
thickness = 8
[space]
clearance = 10
"""
SCAN = """scan = "hole.stl"
scan_unit = "mm"
scan_noise = 6
"""

measure.RUNS = 5
over = []


def fit(name, job, seconds=math.inf, megabytes=math.inf):
    took, used = measure.median([measure.BRIMFUL, "fit", job])
    print(f"{name:<28}{took:>8.2f} s {used:>6.0f} MB", flush=True)
    if took > seconds or used > megabytes:
        over.append(name)


def obstacles(count):
    """Posts of unequal size along one side, each with its own recess."""
    rows = "box = [2000, 600, 500]\n"
    for n in range(count):
        x = 60 + 240 * n
        rows += f'[[space.obstacle]]\nname = "post {n + 1}"\nfrom = [{x}, {500 - 10 * n}, 0]\nto = [{x + 100}, 600, {200 + 30 * n}]\n'
    return rows


def facets(count):
    """A plan with so many sides, on an ellipse."""
    turn = [2 * math.pi * (n + 0.5) / count for n in range(count)]
    points = [[round(700 + 700 * math.cos(t), 3), round(400 + 400 * math.sin(t), 3)] for t in turn]
    return f"plan = {points}\nheight = 500\n"


def main():
    for name in EXAMPLES:
        fit(name, measure.ROOT / "examples" / f"{name}.job.toml", seconds=1.0)
    with tempfile.TemporaryDirectory() as work:
        job = Path(work) / "tank.job.toml"
        source = measure.ROOT / "examples" / "under-bed-arch.job.toml"
        writer = measure.ROOT / "target" / "release" / "examples" / "noisy_scan"
        subprocess.run([writer, source, str(TRIANGLES), Path(work) / "hole.stl"], check=True)
        job.write_text(HEAD + SCAN)
        size = (Path(work) / "hole.stl").stat().st_size
        fit(f"scan, {(size - 84) // 50} triangles", job, seconds=10.0, megabytes=1000)
        for count in (0, 1, 2, 4, 8):
            job.write_text(HEAD + obstacles(count))
            fit(f"{count} obstacles", job)
        for count in (4, 8, 16, 32):
            job.write_text(HEAD + facets(count))
            fit(f"{count + 2} facets", job)
    if over:
        sys.exit(f"over the bound: {', '.join(over)}")


if __name__ == "__main__":
    subprocess.run(measure.BUILD, cwd=measure.ROOT, check=True)
    main()
