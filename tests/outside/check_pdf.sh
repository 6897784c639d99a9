#!/bin/sh
# Reads the PDF of a build pack with poppler, as a stranger would.
#
#     check_pdf.sh DIR...        (each holds build-pack.pdf)
#
# Fails on any complaint of the reader, a font that is not embedded, a page without its number,
# a page or heading that is missing, letters under 9 point, or two words printed over each other.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
for tool in pdfinfo pdffonts pdftotext pdftohtml; do
    command -v "$tool" >/dev/null || { echo "check_pdf: $tool is missing; install poppler-utils"; exit 1; }
done
for place in "$@"; do
    python3 "$here/check_pdf.py" "$place/build-pack.pdf"
done
