#!/usr/bin/env bash
# Fuzzes the job file, the readers of scans and the solids for so many seconds each (default 60). Coverage comes from
# the compiler's own instrumentation and libFuzzer; nothing but the stable toolchain is needed.
set -euo pipefail
cd "$(dirname "$0")"
seconds=${1:-60}
host=$(rustc -vV | sed -n 's/^host: //p')
export RUSTFLAGS="--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table -Ccodegen-units=1"
# With a target named, build scripts and macros stay uninstrumented.
cargo build --release --quiet --target "$host"
for target in job mesh solid; do
    mkdir -p "corpus/$target"
    case $target in
    job) cp ../examples/*.job.toml corpus/job/ ;;
    mesh) cp seeds/mesh/* corpus/mesh/ ;;
    esac
    # A job may take a while to nest; twenty seconds is a hang.
    "target/$host/release/$target" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=4096 \
        -artifact_prefix="corpus/" -print_final_stats=1 "corpus/$target" 2>&1 | tail -n 12
done
