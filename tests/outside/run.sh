#!/usr/bin/env bash
# Everything that programs and libraries which are not ours have to say about what we measure and
# write: moments, plate coefficients, whole tanks as shells, and every file of every example's build pack.
# Run setup.sh once before.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
python="$root/.venv/bin/python"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"

# The whole workspace at once, as the tests build it: a build of one crate alone would settle on
# other features and compile the document compiler a second time.
cargo build --release --locked --quiet --workspace --bins --examples
target/release/examples/random_solids 300 > "$work/solids.jsonl"
"$python" "$here/check_moments.py" < "$work/solids.jsonl"
target/release/examples/random_prisms 600 > "$work/prisms.jsonl"
"$python" "$here/check_prisms.py" < "$work/prisms.jsonl"
target/release/examples/part_built_boxes > "$work/boxes.jsonl"
"$python" "$here/check_reach.py" < "$work/boxes.jsonl"
"$python" "$here/plates.py" --check crates/brimful-mech/src/plate/data/plates.csv
"$python" "$here/check_ccx.py" target/release/examples/tank_cases --quick
"$python" "$here/check_deck.py" target/release/examples/shell_deck
target/release/examples/fitted_bodies 1200 > "$work/fitted.jsonl"
"$python" "$here/check_fitted.py" < "$work/fitted.jsonl"
"$python" "$here/check_surfaces.py" target/release/examples/read_surface
"$here/check_formats.sh"
"$python" "$here/check_api.py" target/release/brimful

packs=0
for job in examples/*.job.toml; do
    for paper in a4 letter; do
        pack="$work/$(basename "$job" .job.toml)-$paper"
        # A4 is another page of the same plan: a draft, but for the smallest job, which has every page. The one on Letter is
        # read back below and is the whole one.
        depth=
        [ "$paper" = letter ] || [ "$(basename "$job")" = shelf-box.job.toml ] || depth=--quick
        # 1 says that a finding stops the build; the pack is written all the same.
        # shellcheck disable=SC2086 # one word, or none
        target/release/brimful pack "$job" $depth -o "$pack" --paper "$paper" > "$pack.log" || [ $? -eq 1 ]
        "$here/check_pdf.sh" "$pack"
    done
    "$python" "$here/check_pack.py" "$pack"
    "$python" "$here/check_fixtures.py" "$pack"
    "$python" "$here/check_dxf.py" "$pack"
    "$python" "$here/check_step.py" "$pack/tank.step" "$pack.expected.json"
    node "$here/check_gltf.mjs" "$pack/tank.glb"
    # A draft has every page but those of the whole-tank check, which shelf-box has.
    quick=--quick
    [ "$(basename "$job")" != shelf-box.job.toml ] || quick=
    pseudo="$work/$(basename "$job" .job.toml)-pseudo"
    # shellcheck disable=SC2086 # one word, or none
    target/release/brimful pack "$job" $quick -o "$pseudo" --language en-XA > "$pseudo.log" || [ $? -eq 1 ]
    python3 "$here/check_language.py" "$job" "$pseudo"
    packs=$((packs + 1))
done

# The decks of the packs, the quickest three; `make soak` does all.
"$python" "$here/check_examples.py" target/release "$work" shelf-box bench-box camper-bench

# The judge of pages must be able to say no.
sed 's/^LEAST_POINTS = .*/LEAST_POINTS = 12/' "$here/check_pdf.py" > "$work/stricter.py"
if python3 "$work/stricter.py" "$work/bench-box-a4/build-pack.pdf" >/dev/null 2>&1; then
    echo "letters of 9 pt passed as 12 pt" >&2
    exit 1
fi

# So must the judge of words: a pack in English has no marks at all.
if python3 "$here/check_language.py" examples/bench-box.job.toml "$work/bench-box-a4" >/dev/null 2>&1; then
    echo "words without a mark passed" >&2
    exit 1
fi
echo "outside checks: $packs build packs read back"
