"""Checks that every word of a build pack in the pseudo-locale comes through the templates.

    check_language.py JOB DIR

DIR is the pack of JOB, written with `--language en-XA`, which marks every word of a template. What has
no mark has come from somewhere else: from a person (the job's names), from a source that is quoted, or
past the templates, which is a fault. Read are the pages (as pdftotext reads them), every list and every
text of a drawing.
"""

import csv
import json
import re
import subprocess
import sys
import tomllib
from pathlib import Path

MARK = "\u00b7"
WORD = re.compile(rf"(?<![^\W\d_])(?<!{MARK})[^\W\d_]+")
# Units, axes, what blocks, panels, seams and grooves are numbered by, and what openings are lettered by in a
# drawing: in no language.
SYMBOLS = set("x y z mm m kg kN L US gal sq lb in ft lbf N K MPa kPa psi degC degF NL deg min s h g e A P S G WE WF WZ".split())
SYMBOLS |= set("bcdefghijklmnop\u00b2\u00b3")
# A line of a job file that a text names, such as `[body] fitted = "..."`.
KEY = re.compile(r"\[[a-z_.]+\] [a-z_]+ =")
# Keys of a job file that hold a person's own words.
OWN = {"name", "customer", "notes", "source", "material", "kind"}


def own_words(value, key=""):
    """What a person wrote into the job, and the keys of the job file, which are the same in any language."""
    if isinstance(value, dict):
        yield from value
        for name, item in value.items():
            yield from own_words(item, name)
    elif isinstance(value, list):
        for item in value:
            yield from own_words(item, key)
    elif isinstance(value, str) and key in OWN:
        yield value


def quoted(value, key=""):
    """Sources, and what is a default's name or value, as the pack's JSON has them."""
    if isinstance(value, dict):
        for name, item in value.items():
            yield from quoted(item, name)
    elif isinstance(value, list):
        for item in value:
            yield from quoted(item, key)
    elif isinstance(value, str) and key in {"source", "sources", "name", "value", "entry", "key", "path"}:
        yield value


def unmarked(text, known):
    """Words of letters that have no mark and are not known, each once."""
    return sorted({word for word in WORD.findall(KEY.sub("", text)) if word not in known and word not in SYMBOLS})


def texts(pack):
    """Every text of a pack, by the name of its file."""
    pdf = pack / "build-pack.pdf"
    done = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True, check=True)
    yield pdf.name, done.stdout
    for file in sorted(pack.glob("*.csv")):
        with open(file, newline="", encoding="utf-8-sig") as lines:
            yield file.name, "\n".join("\n".join(row) for row in csv.reader(lines))
    for file in sorted(pack.rglob("*.dxf")):
        lines = file.read_text(encoding="utf-8").splitlines()
        pairs = zip(lines[::2], lines[1::2])
        said = []
        kind = ""
        for code, value in pairs:
            kind = value if code.strip() == "0" else kind
            if code.strip() == "1" and kind in ("TEXT", "MTEXT"):
                said.append(value)
        yield str(file.relative_to(pack)), "\n".join(said)


def main(job, pack):
    assert unmarked("·rod 3 mm of ·P1, wide [a] pad =", {"wide"}) == ["of"], "the checker finds what has no mark"
    own = list(own_words(tomllib.loads(Path(job).read_text(encoding="utf-8"))))
    own += quoted(json.loads((pack / "build-pack.json").read_text(encoding="utf-8")))
    known = {word for text in own for word in WORD.findall(text)}
    faults = [f"{name}: {words}" for name, text in texts(pack) if (words := unmarked(text, known))]
    print("\n".join(faults) or f"language: {pack} has no word without a mark")
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], Path(sys.argv[2])))
