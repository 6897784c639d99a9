"""What ccx makes of our decks: one square plate under loads and on supports with known answers.

    python check_deck.py SHELL_DECK    # the built example of brimful-formats
"""

import subprocess
import sys

import ccx
import decks

# Corners on springs of 1000 N/m under 10 Pa: 10 N / 4 / 1000 N/m, up along the normals. Weight:
# 10 kg at 1 m/s2. Touched after 2 mm: (2.5 N + 2 N) / 2000 N/m. Warm between two sides that do not
# move apart: a growth of 0.002 comes out sideways with Poisson's ratio more, over 1 m. To the digits
# ccx writes, less what its finite plate bends. The clamped plate: 0.0012653 q a^4 / D (Timoshenko and
# Woinowsky-Krieger, uniformly loaded clamped plate); with its sheet uncoupled across the thickness
# this mesh of S6 is 1 % below it.
CORNER, CENTRE, BESIDE = 1, 145, 273
ANSWERS = {
    "springs": (CORNER, 2, 0.0025, 1e-3),
    "weight": (CORNER, 2, -0.0025, 1e-3),
    "touched": (CORNER, 2, 0.00225, 1e-3),
    "untouched": (CORNER, 2, -0.0025, 1e-3),
    "warm": (BESIDE, 1, 0.0026, 1e-6),
}


def clamped(poisson):
    return 0.0012653 * 10 / (1e9 * 0.01**3 / 12 / (1 - poisson**2))


# Of the clamped plate what it comes to, uncoupled and as written: the rigid knots that ccx makes of
# held turns keep it below by so much more where Poisson's ratio is greater.
CLAMPED = {"clamped": (clamped(0.3), 0.989, 0.963), "clamped-plastic": (clamped(0.45), 0.991, 0.889)}
# The same program gives the same figures on every machine, to rounding.
SAME = 0.005


def moved(deck, node, way):
    frd, _, _, _ = ccx.run(deck)
    return ccx.displacements(frd)[node][way]


def main(program):
    def deck(which):
        return subprocess.run([program, which], capture_output=True, text=True, check=True).stdout

    def judge(which, found, wanted, tolerance):
        if abs(found / wanted - 1) > tolerance:
            raise SystemExit(f"deck {which}: {found:.6e} m where {wanted:.6e} m was wanted")

    for which, (node, way, wanted, tolerance) in ANSWERS.items():
        judge(which, moved(deck(which), node, way), wanted, tolerance)
    for which, (wanted, uncoupled, as_written) in CLAMPED.items():
        text = deck(which)
        judge(which, moved(decks.uncoupled(decks.Deck(text)), CENTRE, 2), uncoupled * wanted, SAME)
        judge(which, moved(text, CENTRE, 2), as_written * wanted, SAME)
    count = len(ANSWERS) + len(CLAMPED)
    print(f"decks: {count} read by ccx {ccx.version()} with the right answers")


if __name__ == "__main__":
    main(sys.argv[1])
