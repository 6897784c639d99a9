"""Judges one build-pack.pdf by what poppler reads in it; see check_pdf.sh."""

import re
import subprocess
import sys
import xml.etree.ElementTree as tree

HEADINGS = [
    "Findings, worst first",
    "Pictures and parts",
    "Panels and fittings",
    "Cuts, in order",
    "Welding: grooves, seams, rod",
    "Order of work",
    "Gauge table",
    "Dipstick at full size",
    "Leak test",
    "Strength: the quick check",
    "Cautions",
    "Record and sign-off",
    "Defaults used, and sources",
    "It is no certificate",
]
LEAST_POINTS = 9
# Boxes of words are as high as the font, not as the letters: neighbouring lines share a little.
SHARED = 0.2


def read(*command):
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    if done.stderr.strip():
        sys.exit(f"{command[-1]}: {command[0]} complains: {done.stderr.strip()}")
    return done.stdout


def words_of(page):
    for word in page.iter("{http://www.w3.org/1999/xhtml}word"):
        yield word.text, [float(word.get(key)) for key in ("xMin", "yMin", "xMax", "yMax")]


def area(box):
    return max(0.0, box[2] - box[0]) * max(0.0, box[3] - box[1])


def common(a, b):
    return area([max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])])


def main(file):
    faults = []
    pages = int(re.search(r"Pages:\s+(\d+)", read("pdfinfo", file)).group(1))
    for line in read("pdffonts", file).splitlines()[2:]:
        if line.split()[-5] != "yes":
            faults.append(f"font not embedded: {line}")
    text = read("pdftotext", "-layout", file, "-")
    faults += [f"nothing says {heading!r}" for heading in HEADINGS if heading not in text]
    for number in range(1, pages + 1):
        if f"page {number} of {pages}" not in text:
            faults.append(f"page {number} does not carry its number")
    html = read("pdftohtml", "-xml", "-i", "-zoom", "1", "-stdout", file)
    sizes = {int(size) for size in re.findall(r'<fontspec[^>]* size="(\d+)"', html)}
    faults += [f"letters of {size} pt" for size in sizes if size < LEAST_POINTS]
    boxes = tree.fromstring(re.sub("[\x00-\x08\x0b\x0c\x0e-\x1f]", "", read("pdftotext", "-bbox", file, "-")))
    for number, page in enumerate(boxes.iter("{http://www.w3.org/1999/xhtml}page"), 1):
        words = list(words_of(page))
        for i, (one, a) in enumerate(words):
            for other, b in words[i + 1 :]:
                if common(a, b) > SHARED * min(area(a), area(b)):
                    faults.append(f"page {number}: {one!r} and {other!r} are printed over each other")
    for fault in faults:
        print(f"{file}: {fault}")
    if faults:
        sys.exit(1)
    print(f"pdf: {file} has {pages} pages, all fonts embedded, {min(sizes)} pt and up, no word over another")


main(sys.argv[1])
