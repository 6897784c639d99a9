#!/bin/sh
# Writes one sample of each format and has it read by programs that are not ours; then spoils
# the samples and insists that each reader objects. run.sh builds what writes them.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
python="$root/.venv/bin/python"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

must_fail() {
    if "$@" >/dev/null 2>&1; then
        echo "passed, but should have failed: $*" >&2
        exit 1
    fi
}

cd "$root"
for copy in a b; do
    target/release/examples/format_samples "$work/$copy"
done
diff -r "$work/a" "$work/b"

cd "$work/a"
"$python" "$here/check_dxf.py" . dxf_expected.json
"$python" "$here/check_step.py" assembly.step assembly_expected.json
node "$here/check_gltf.mjs" parts.glb
"$python" - list.csv <<'EOF'
import csv, sys
with open(sys.argv[1], newline="", encoding="utf-8") as file:
    rows = list(csv.reader(file, delimiter=";", strict=True))
assert rows == [["panel", "length (mm)"], ['lid; "left"\nØ', "374,25"]], rows
print("csv: read back cell by cell")
EOF

cd "$work/b"
# Another unit, an open outline, a wrong volume, a moved vertex, a cut-off file.
sed -i '/\$INSUNITS/{n;n;s/4/1/}' panel_mm.dxf
must_fail "$python" "$here/check_dxf.py" . dxf_expected.json
sed '/^POLYLINE$/,/^VERTEX$/{/^ 70$/{n;s/1/0/}}' panel_inch.dxf > open.dxf
must_fail "$python" "$here/check_dxf.py" .
sed 's/"volume_m3":0\.000/"volume_m3":0.0001/' assembly_expected.json > wrong.json
must_fail "$python" "$here/check_step.py" assembly.step wrong.json
sed '0,/(400\.,0\.,0\.)/s//(401.,0.,0.)/' assembly.step > moved.step
must_fail "$python" "$here/check_step.py" moved.step assembly_expected.json
head -c 2000 parts.glb > cut.glb
must_fail node "$here/check_gltf.mjs" cut.glb
echo "every spoilt sample was found out"
