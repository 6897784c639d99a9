#!/bin/sh
# Fetches the outside readers that judge our files: system packages, a Python environment in
# `.venv` at the workspace root and Node packages beside this script. Safe to run again.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)

# poppler reads the PDF; g++ builds the fuzzer's runtime; libgl1 is what the STEP reader links;
# ccx is the general finite-element program that whole tanks are compared with.
missing=""
command -v pdftotext >/dev/null || missing="$missing poppler-utils"
command -v g++ >/dev/null || missing="$missing g++"
python3 -c 'import ensurepip' 2>/dev/null || missing="$missing python3-venv"
command -v ccx >/dev/null || missing="$missing calculix-ccx"
ldconfig -p | grep -q 'libGL\.so\.1' || missing="$missing libgl1"
if [ -n "$missing" ]; then
    sudo=""
    [ "$(id -u)" -eq 0 ] || sudo=sudo
    $sudo apt-get update -qq
    # shellcheck disable=SC2086 # one word a package
    $sudo apt-get install -y -qq --no-install-recommends $missing
fi

if [ ! -x "$root/.venv/bin/python" ]; then
    python3 -m venv "$root/.venv"
fi
"$root/.venv/bin/python" -m pip install --quiet --disable-pip-version-check --requirement "$here/requirements.txt"
(cd "$here" && npm ci --silent --no-audit --no-fund)
