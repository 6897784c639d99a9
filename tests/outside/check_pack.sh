#!/bin/sh
# Makes the pack of every example job, on A4 and Letter, and has each file judged by a reader
# that is not ours: PDF by poppler, DXF by ezdxf, STEP by Open CASCADE, glTF by the Khronos
# validator. Run setup.sh once before.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
python="$root/.venv/bin/python"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cd "$root"
cargo build --release --quiet -p brimful-pack --example pack_example
for job in examples/*.job.toml; do
    name=$(basename "$job" .job.toml)
    for paper in a4 letter; do
        place="$work/$name-$paper"
        target/release/examples/pack_example "$job" "$place" "$paper"
        "$here/check_pdf.sh" "$place"
    done
    place="$work/$name-a4"
    "$python" "$here/check_dxf.py" "$place"
    "$python" "$here/check_step.py" "$place/tank.step" "$place/step_expected.json"
    node "$here/check_gltf.mjs" "$place/tank.glb"
done

# The judge of pages must be able to say no.
sed 's/^LEAST_POINTS = .*/LEAST_POINTS = 12/' "$here/check_pdf.py" > "$work/stricter.py"
if python3 "$work/stricter.py" "$work/bench-box-a4/build-pack.pdf" >/dev/null 2>&1; then
    echo "letters of 9 pt passed as 12 pt" >&2
    exit 1
fi
echo "every file of every pack was read"
