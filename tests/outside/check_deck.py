"""What ccx makes of our decks: one square plate under loads and on supports with known answers.

    python check_deck.py SHELL_DECK    # the built example of brimful-formats
"""

import subprocess
import sys

import ccx

# Corners on springs of 1000 N/m under 10 Pa: 10 N / 4 / 1000 N/m, up along the normals. Weight:
# 10 kg at 1 m/s2. Touched after 2 mm: (2.5 N + 2 N) / 2000 N/m. To the digits ccx writes, less
# what its finite plate bends. The clamped plate: 0.0012653 q a^4 / D (Timoshenko and
# Woinowsky-Krieger, uniformly loaded clamped plate); the rigid knots that ccx makes of held turns
# keep S6 on this mesh 3.7 % below it.
CORNER, CENTRE = 1, 145
CLAMPED = 0.0012653 * 10 / (1e9 * 0.01**3 / 12 / (1 - 0.3**2))
ANSWERS = {
    "springs": (CORNER, 0.0025, 1e-3),
    "weight": (CORNER, -0.0025, 1e-3),
    "touched": (CORNER, 0.00225, 1e-3),
    "untouched": (CORNER, -0.0025, 1e-3),
    "clamped": (CENTRE, CLAMPED, 0.05),
}


def main(program):
    for which, (node, wanted, tolerance) in ANSWERS.items():
        deck = subprocess.run([program, which], capture_output=True, text=True, check=True).stdout
        frd, _, _, _ = ccx.run(deck)
        found = ccx.displacements(frd)[node][2]
        if abs(found / wanted - 1) > tolerance:
            raise SystemExit(f"deck {which}: {found:.6e} m where {wanted:.6e} m was wanted")
    print(f"decks: {len(ANSWERS)} read by ccx {ccx.version()} with the right answers")


if __name__ == "__main__":
    main(sys.argv[1])
