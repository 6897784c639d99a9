#!/usr/bin/env python3
"""Compares what two builds of Brimful make of the same jobs: figures, grades and verdicts, from the JSON.

    benches/compare.py BEFORE AFTER [JOB ...]

BEFORE and AFTER are two `brimful` commands; without jobs all examples are run, and the jobs of tests and
benches. Words are not compared, and a key that only one of them has is counted, not shown. Prints what
differs and ends with 1 where a number, a grade or an exit code does.
"""

import json
import subprocess
import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VERBS = [["check"], ["check", "--quick"], ["fit"]]
# Numbers nearer than this are one: the last digits of a sum may change with its order.
ROUNDING = 1e-9
# Words, and what is made of words.
WORDS = {
    "about", "says", "cure", "source", "sources", "entry", "name", "names", "title", "text", "reason", "value",
    "assumptions", "load_case", "load_cases", "support", "span", "kind", "preparation", "what", "rate", "why",
    "gives_up", "cautions", "settings", "steps", "defaults", "findings", "causes",
}


def answer(command, verb, job):
    run = subprocess.run([command, *verb, str(job), "--json"], capture_output=True, text=True)
    return run.returncode, json.loads(run.stdout) if run.stdout else None


def numbers(value, path=""):
    """Every number by its place."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        yield path, value if not isinstance(value, str) else None
    elif isinstance(value, (int, float)):
        yield path, value
    elif isinstance(value, list):
        for place, item in enumerate(value):
            yield from numbers(item, f"{path}[{place}]")
    else:
        for key, item in value.items():
            if key not in WORDS or isinstance(item, (dict, list)) and key == "load_cases":
                yield from numbers(item, f"{path}.{key}")


def findings(document):
    """How many findings there are of each grade, with each figure and limit."""
    def figure(one):
        return one and (round(one["value"], 9), one["unit"])

    return Counter((one["grade"], figure(one["figure"]), figure(one["limit"])) for one in document["findings"])


def differences(before, after):
    one, other = dict(numbers(before)), dict(numbers(after))
    for path in sorted(one.keys() & other.keys()):
        a, b = one[path], other[path]
        same = a == b or (
            isinstance(a, (int, float)) and isinstance(b, (int, float))
            and abs(a - b) <= ROUNDING * max(abs(a), abs(b))
        )
        if not same:
            yield f"{path}: {a} -> {b}"
    gone, new = findings(before) - findings(after), findings(after) - findings(before)
    for sign, some in (("-", gone), ("+", new)):
        for (grade, figure, limit), count in some.items():
            yield f"{sign} {count} x {grade} {figure} against {limit}"


def main():
    before, after, *jobs = sys.argv[1:]
    folders = ["examples", "crates/brimful-tank/tests", "benches"]
    jobs = [Path(job) for job in jobs] or sorted(job for it in folders for job in (ROOT / it).glob("*.job.toml"))
    worse, compared = 0, 0
    for job in jobs:
        for verb in VERBS:
            (code, one), (other_code, other) = answer(before, verb, job), answer(after, verb, job)
            found = [f"exit code: {code} -> {other_code}"] if code != other_code else []
            if one and other and "findings" in one:
                found += list(differences(one, other))
                compared += len(dict(numbers(one)).keys() & dict(numbers(other)).keys())
            worse += len(found)
            print(f"{job.name} {' '.join(verb)}: exit {other_code}, {len(found)} differences")
            for line in found[:20]:
                print(f"    {line}")
    print(f"{len(jobs)} jobs, {compared} values compared, {worse} differences")
    return 1 if worse else 0


if __name__ == "__main__":
    sys.exit(main())
