#!/bin/sh
# Fetches the outside readers that judge our files: a Python environment in `.venv` at the
# workspace root and Node packages beside this script. Safe to run again.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)

if [ ! -x "$root/.venv/bin/python" ]; then
    python3 -m venv "$root/.venv"
fi
"$root/.venv/bin/python" -m pip install --quiet --disable-pip-version-check --requirement "$here/requirements.txt"
(cd "$here" && npm ci --silent --no-audit --no-fund)
