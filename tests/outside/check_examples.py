"""Every example's deck, run by ccx: how far panels move and what stress they bear, beside ours.

    python check_examples.py RELEASE PACKS [NAME...]    # all examples, or those named

RELEASE is the folder of the built programs (the command, and example deck_answer); in PACKS each
example's whole build pack lies in a folder NAME-letter, and is made where it is missing: a draft has no
deck. ccx gets the same mesh with the sheets of `decks.uncoupled`: as written its shells are too stiff.
"""

import csv
import json
import subprocess
import sys
from pathlib import Path

import ccx
import decks
import numpy as np

# Panels that move by less than this share of what the worst does are mostly moved by others.
SHOWN = 0.3
# What two kinds of element make of one mesh: each is 1 to 3 % from its own limit at these sizes.
DEFLECTION = 0.04
# In the middle of a panel the stress varies slowly; near seams and bands it is greatest.
STRESS_IN_MIDDLE, STRESS = 0.03, 0.05
# Thicknesses that a node lies off seams and rims at least where stress is compared: nearer, ccx has
# rigid knots.
OFF = 1.0
# Stress near seams is the mean of the nodes within so many thicknesses of the worst: over two elements
# the check evens out what a seam passes on, and single nodes of a graded mesh scatter in both programs.
OVER = 3.0
# Shares of the load tried in turn for the first increment; a tank that settles on its supports needs
# small ones.
FIRST = [0.25, 0.05, 0.01]
ROOT = Path(__file__).resolve().parents[2]


def run(deck):
    """Displacements, stresses and the seconds of the run that came to an end."""
    for first in FIRST:
        try:
            frd, dat, seconds, _ = ccx.run(decks.uncoupled(deck, first))
            return ccx.displacements(frd), ccx.stresses(dat), seconds
        except RuntimeError as error:
            last = error
    raise last


def rows(deck, answer, moved, stress):
    """A row a panel: its flat, whether it moves most away from its lines (a lid does at the rim of its
    hatch), then theirs and ours of the deflection, of the stress where ours is greatest, and of the
    stress where it moves most."""
    ours = np.array(answer["moved"])
    theirs = np.array([moved[n + 1] for n in range(len(ours))])
    by_flat = {}
    for triangle in answer["triangles"]:
        by_flat.setdefault(triangle["flat"], []).append(triangle)
    found = []
    for flat in deck.flats.values():
        own = by_flat[int(flat.name.rsplit("-", 1)[1])]
        assert [t["nodes"] for t in own] == flat.triangles, "the deck is of another mesh"
        nodes = sorted({n for t in flat.triangles for n in t})
        way = deck.normal(flat)
        square = np.abs(ours[nodes] @ way)
        most = nodes[int(square.argmax())]
        deflections = np.abs(theirs[nodes] @ way).max(), square.max()
        by_node = {n: s for t in own for n, s in zip(t["nodes"], t["stress"])}
        lines = np.array([deck.nodes[n + 1] for n in sorted(deck.on_lines(flat))])
        off = lambda n: np.linalg.norm(lines - deck.nodes[n + 1], axis=1).min() >= OFF * flat.thickness
        inside = [n for n in nodes if off(n)]
        if not inside:
            continue
        worst = max(inside, key=by_node.get)
        near = [n for n in inside if np.linalg.norm(deck.nodes[n + 1] - deck.nodes[worst + 1]) <= OVER * flat.thickness]
        surface = decks.surface_stresses(deck, flat, stress)
        mean = lambda values: np.mean([values[n] for n in near])
        pairs = [deflections, (mean(surface), mean(by_node)), (surface[most], by_node[most])]
        found.append((flat.name, most in inside, pairs))
    largest = max(pairs[0][1] for _, _, pairs in found)
    return [row for row in found if row[2][0][1] >= SHOWN * largest]


def show(name, pack, found):
    """Prints the rows of one example; how many figures are off."""
    with open(pack / "panels.csv", newline="") as file:
        panels = {row["panel"]: row["name"] for row in csv.DictReader(file)}
    bad = 0
    for flat, middle, pairs in found:
        cells = []
        for (their, our), unit, allowed in zip(pairs, (1e3, 1e-6, 1e-6), (DEFLECTION, STRESS, STRESS_IN_MIDDLE)):
            if len(cells) == 2 and not middle:
                cells.append("–")
                continue
            off = our / their - 1
            good = abs(off) <= allowed
            bad += not good
            cells.append(f"{their * unit:.3f}, {our * unit:.3f}, {100 * off:+.1f} %{'' if good else ' OFF'}")
        print(f"| {name} | {panels[flat.split('-')[0]]} | {' | '.join(cells)} |", flush=True)
    return bad


def main(release, packs, names):
    if ccx.version() is None:
        raise SystemExit("ccx is not installed: run tests/outside/setup.sh")
    names = names or sorted(p.name.removesuffix(".job.toml") for p in (ROOT / "examples").glob("*.job.toml"))
    bad = 0
    print(f"decks of the examples, ccx {ccx.version()} on the same mesh: theirs, ours, difference")
    print("| example | panel | deflection mm | stress, most MPa | stress in the middle MPa |\n| --- | --- | --- | --- | --- |")
    for name in names:
        job, pack = ROOT / f"examples/{name}.job.toml", Path(packs, f"{name}-letter")
        if not pack.exists():
            # 1 says that a finding stops the build; the pack is written all the same.
            made = subprocess.run([f"{release}/brimful", "pack", job, "-o", pack, "--paper", "letter"], capture_output=True, check=False)
            assert made.returncode in (0, 1), made.stderr
        path = pack / "shell.inp"
        done = subprocess.run([f"{release}/examples/deck_answer", job], capture_output=True, text=True, check=True)
        answer = json.loads(done.stdout)
        if not path.exists():
            assert answer is None, f"{name}: no deck"
            print(f"| {name} | no deck | | | |")
            continue
        deck = decks.Deck(path.read_text())
        moved, stress, seconds = run(deck)
        bad += show(name, pack, rows(deck, answer, moved, stress))
        print(f"{name}: {answer['case']}, {len(answer['triangles'])} triangles, {seconds:.0f} s", file=sys.stderr)
    if bad:
        raise SystemExit(f"{bad} figures are off")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
