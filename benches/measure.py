"""Wall time and peak memory of the command as a user runs it, and of rebuilds after a touch.

    python3 benches/measure.py            # check and pack on every example
    python3 benches/measure.py --rebuild  # also: seconds to rebuild after touching one file a crate

Each command runs nine times; the median is printed (the machines are noisy). Bounds from the
issue: check 50 ms of computing and 100 MB, pack 5 s and 500 MB. `cargo bench` has the computing
alone, without starting the program.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BRIMFUL = ROOT / "target" / "release" / "brimful"
RUNS = 9
BUILD = ["cargo", "build", "--release", "--quiet", "--workspace", "--bins", "--examples"]


def run(command):
    """Seconds and peak megabytes of one run; a finding that stops is no failure."""
    begin = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - begin
    assert os.waitstatus_to_exitcode(status) in (0, 1), command
    return seconds, usage.ru_maxrss / 1024


def median(command):
    runs = [run(command) for _ in range(RUNS)]
    return statistics.median(r[0] for r in runs), max(r[1] for r in runs)


def examples():
    print(f"{'job':<24}{'check ms':>10}{'MB':>6}{'pack ms':>10}{'MB':>6}")
    with tempfile.TemporaryDirectory() as work:
        for job in sorted((ROOT / "examples").glob("*.job.toml")):
            check = median([BRIMFUL, "check", job])
            pack = median([BRIMFUL, "pack", job, "-o", f"{work}/{job.stem}"])
            name = job.name.removesuffix(".job.toml")
            print(f"{name:<24}{check[0] * 1e3:>10.0f}{check[1]:>6.0f}{pack[0] * 1e3:>10.0f}{pack[1]:>6.0f}")


def rebuilds():
    files = ["brimful-geom/src/basin.rs", "brimful-mech/src/lib.rs", "brimful-tank/src/gauge.rs", "brimful-pack/src/lib.rs", "brimful/src/main.rs"]
    for file in files:
        (ROOT / "crates" / file).touch()
        begin = time.perf_counter()
        subprocess.run(BUILD, cwd=ROOT, check=True)
        print(f"touching {file:<32} the command again in {time.perf_counter() - begin:5.1f} s")


if __name__ == "__main__":
    subprocess.run(BUILD, cwd=ROOT, check=True)
    examples()
    if "--rebuild" in sys.argv:
        rebuilds()
